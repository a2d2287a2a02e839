"""The ways in: the command line and the screens. No arithmetic, no rounding: records go in, tables come out.

Takes: arguments, requests of a browser.
Gives: text on the screen, files in a folder, an exit code.
May import: every room.
Start reading at: `command_line`; `web.app` for the screens.
"""
