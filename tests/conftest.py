"""Profiles of the random tests, and the one-shelf job everybody knows by heart."""

import os

from hypothesis import settings

settings.register_profile("usual", deadline=None, max_examples=60)
settings.register_profile("ci", deadline=None, max_examples=60, derandomize=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "usual"))
