"""evenface: faced panels edged in solid wood, from a job file to cut parts, checks and papers."""

__version__ = "0.1.0"
