"""Every decision an author can change: the kit, looks, the page, the words that are printed."""

from engraver.style.kit import Kit, KitRow, standard_kit
from engraver.style.style import PAPERS, Counting, GhostLook, Paper, Rests, Style
from engraver.style.velocities import VELOCITIES, Velocities
from engraver.style.words import Words, languages, words

__all__ = [
    "PAPERS",
    "VELOCITIES",
    "Counting",
    "GhostLook",
    "Kit",
    "KitRow",
    "Paper",
    "Rests",
    "Style",
    "Velocities",
    "Words",
    "languages",
    "standard_kit",
    "words",
]
