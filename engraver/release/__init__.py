"""What is sold: buyers' copies, checksums, a folder and an archive. Knows bound books, no music.

found = read_buyers(shop_csv, font.unsettable)              # CSV        -> buyers, and rows that cannot be
master = make_master(edition, out, font)                    # edition    -> the bytes that all copies share
copies = write_copies(master, buyers, imprint, ...)         # buyers     -> a file each
pack(folder, archive, day, inside)                          # folder     -> an archive, always the same bytes
"""

from engraver.release.buyers import Buyer, Buyers, parse_buyers, read_buyers
from engraver.release.copies import Copy, write_copies
from engraver.release.master import Master, make_master, room
from engraver.release.nameplate import NameplateFont, nameplate_font
from engraver.release.package import CHECKSUMS, pack, whole_folder, write_checksums

__all__ = [
    "CHECKSUMS",
    "Buyer",
    "Buyers",
    "Copy",
    "Master",
    "NameplateFont",
    "make_master",
    "nameplate_font",
    "pack",
    "parse_buyers",
    "read_buyers",
    "room",
    "whole_folder",
    "write_checksums",
    "write_copies",
]
