"""``python -m engraver``."""

from engraver.cli import main

main()
