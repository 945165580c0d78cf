"""What was made before, under the names of all that made it. Knows no music.

memory = Memory(folder, book)                            # one for each book and place of work
found = memory.recall(subject, ground, row, make)        # what was made last time, or what `make` makes now, and why
"""

from engraver.memory.memory import Memory, Recalled, Row
from engraver.memory.program import fingerprint, folder_fingerprint
from engraver.memory.shelf import Shelf
from engraver.memory.values import pack, unpack

__all__ = ["Memory", "Recalled", "Row", "Shelf", "fingerprint", "folder_fingerprint", "pack", "unpack"]
