"""The recipes: a job file in, a sketch or a whole result out.

Takes: a job file's path, and what of the rooms' choices the caller wants different (seed, time budget).
Gives: `Sketch` and `Result`.
May import: every room below it.
Start reading at: `plan.plan`.
"""
