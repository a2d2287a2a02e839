"""What is said of a fault of our own; what exactly it was stands in the log, never on a page."""

from typing import Final

FAULT: Final = "Something in evenface itself went wrong here; it is not what you typed or did."
KEPT: Final = "Everything kept so far stands, and nothing you typed is lost."
TRY: Final = (
    "Try it once more. If it fails again, undo the last change or look at the job file; "
    "the window where evenface was started says what went wrong."
)
