"""What is kept between two evenings at the bench: jobs and their revisions, and what lies in the rack.

Takes: the text of a job, its file's name, the state an edit was made against; items of stock as they were seen.
Gives: `JobStore`, which hands out `KeptJob` records; `rack.Rack`, which hands out `RackItem` records; the only SQL.
May import: errors, units.
Start reading at: `jobs.JobStore`, `rack.Rack`.
"""

from evenface.store.jobs import JobStore, KeptJob, NoSuchJob, Stale
from evenface.store.rack_records import RackError, RackItem, Taken
from evenface.store.schema import StoreError, data_folder

# the rack itself is imported by who touches it: it opens SQLAlchemy
__all__ = [
    "JobStore",
    "KeptJob",
    "NoSuchJob",
    "RackError",
    "RackItem",
    "Stale",
    "StoreError",
    "Taken",
    "data_folder",
]
