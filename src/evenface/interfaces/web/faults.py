"""What is said of a fault of our own; what exactly it was stands in the log, never on a page."""

import logging
from typing import Final

from evenface.errors import EvenfaceError, Sentence

LOG: Final = logging.getLogger(__name__)

FAULT: Final = "Something in evenface itself went wrong here; it is not what you typed or did."
KEPT: Final = "Everything kept so far stands, and nothing you typed is lost."
TRY: Final = (
    "Try it once more. If it fails again, undo the last change or look at the job file; "
    "the window where evenface was started says what went wrong."
)


def told_beside(problem: Exception) -> Sentence:
    """What is said of a reckoning beside the pages that failed; a fault of our own goes to the log."""
    if isinstance(problem, EvenfaceError):
        return problem.sentence
    LOG.error("a reckoning beside the pages failed", exc_info=problem)
    return FAULT
