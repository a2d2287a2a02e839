"""The screens: a local app that answers while one types.

Takes: the jobs of a `store`, requests from a browser on this machine.
Gives: pages and fragments of pages; revisions in the store; papers to download.
May import: every room, and of its own the command line's manner of speaking.
Start reading at: `app.build_app`, then `desk`.

Plain Starlette: it imports in a third of the time FastAPI takes, and no page needs more.
"""
