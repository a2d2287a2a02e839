"""What is kept between two evenings at the bench: jobs and their revisions, in one SQLite file.

Takes: the text of a job, its file's name, the state an edit was made against.
Gives: `JobStore`, which hands out `KeptJob` records; the only SQL there is.
May import: errors.
Start reading at: `jobs.JobStore`.
"""

from evenface.store.jobs import JobStore, KeptJob, NoSuchJob, Stale
from evenface.store.schema import StoreError, data_folder

__all__ = ["JobStore", "KeptJob", "NoSuchJob", "Stale", "StoreError", "data_folder"]
