"""The music outside the book: a MIDI file for every groove and exercise."""

from engraver.export.folder import in_folders, midi_files, write_files
from engraver.export.midi import Click, midi_file
from engraver.export.pieces import CellStart, Piece, pieces
from engraver.export.text_edition import text_edition

__all__ = [
    "CellStart",
    "Click",
    "Piece",
    "in_folders",
    "midi_file",
    "midi_files",
    "pieces",
    "text_edition",
    "write_files",
]
