"""Copies of a bound edition, one for each buyer, whose name stands on every page. Knows PDFs, no music.

master = make_master(edition, out, font)                    # edition    -> the bytes that all copies share
copies = write_copies(master, buyers, imprint, ...)         # buyers     -> a file each
"""

from engraver.release.copying.copies import Copy, write_copies
from engraver.release.copying.master import Master, make_master, room
from engraver.release.copying.nameplate import NameplateFont, nameplate_font

__all__ = ["Copy", "Master", "NameplateFont", "make_master", "nameplate_font", "room", "write_copies"]
