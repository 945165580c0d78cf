"""How long a book takes from its definition to LilyPond text: `python tests/bench/planning.py [FOLDER]`.

As in a build that remembers nothing: a process of its own for each turn, with the rows that are read noted.
"""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[2]))

from engraver import definition
from engraver.manuscript.planning import plan_chapter
from engraver.style import watched

BOOK = Path(__file__).parents[2] / "book"
TURNS = 10


def seconds(folder: Path) -> float:
    """Of the processor, for all chapters of the book in ``folder``, once, in this process."""
    book = definition.read(folder)
    start = time.process_time()
    for chapter in book.chapters:
        style = watched(book.style, set().add)
        plan_chapter(chapter, style, style.say)
    return time.process_time() - start


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else BOOK
    if "--once" in sys.argv:
        print(seconds(folder))
        return
    command = [sys.executable, __file__, str(folder), "--once"]
    times = [float(subprocess.run(command, capture_output=True, text=True, check=True).stdout) for _ in range(TURNS)]
    print(f"planning: {median(times):.3f} s, the median of {TURNS}; the least {min(times):.3f} s")


if __name__ == "__main__":
    main()
