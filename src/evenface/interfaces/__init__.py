"""The ways in: the command line. No arithmetic, no rounding: records go in, tables come out.

Takes: arguments.
Gives: text on the screen, files in a folder, an exit code.
May import: every room.
Start reading at: `command_line`.
"""
