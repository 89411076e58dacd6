"""What the maker says: entries with their limits, material cards, the job file."""

from moldcalc.job.file import JobFile, demo_job, demo_names, new_text, open_job, read_job
from moldcalc.job.job import Job

__all__ = ["Job", "JobFile", "demo_job", "demo_names", "new_text", "open_job", "read_job"]
