"""The command line: arguments in, exit code out. Each command loads what it runs, and no other."""

from engraver.cli.command_line import EXIT_CODES, commands, main

__all__ = ["EXIT_CODES", "commands", "main"]
