"""The door: answers `--version` at once, else opens the command line."""

import sys

from evenface import __version__


def main() -> None:
    """Run the command line on `sys.argv`."""
    if sys.argv[1:] in (["--version"], ["-V"]):
        sys.stdout.write(f"evenface {__version__}\n")
        return
    from evenface.interfaces.command_line import run

    run()


if __name__ == "__main__":
    main()
