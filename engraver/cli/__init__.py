"""The command line: arguments in, exit code out. Each command loads what it runs, and no other."""

from __future__ import annotations

import sys

STOPPED = 130  # as shells say it of what Ctrl-C ended


def main() -> None:
    """Run a command; every mistake of a user is told in words, and so is Ctrl-C while the program is still loaded."""
    try:
        from engraver.cli.command_line import main as run
    except KeyboardInterrupt:
        sys.exit(STOPPED)
    run()
