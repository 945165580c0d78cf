"""Every decision an author can change: the kit, looks, the page, the words that are printed."""

from engraver.style.counting import Syllables, syllable_sets, syllables_of
from engraver.style.designs import (
    design_folder,
    design_folders,
    designs,
    font_folders,
    include_folders,
    templates_folder,
)
from engraver.style.fonts import FAMILIES, Face, Family, Fonts
from engraver.style.kit import Kit, KitRow, Stem, standard_kit
from engraver.style.looks import (
    Accents,
    BarNumbers,
    Beams,
    CellNames,
    Counting,
    GhostLook,
    Rests,
    TempoLook,
    Voices,
)
from engraver.style.paper import PAPERS, Margins, Paper
from engraver.style.presets import preset_text, presets
from engraver.style.shipped import read_shipped
from engraver.style.style import Style
from engraver.style.velocities import VELOCITIES, Velocities
from engraver.style.watching import Rows, watched
from engraver.style.words import Entry, Words, capital, languages, places_of, words, words_text

__all__ = [
    "FAMILIES",
    "PAPERS",
    "VELOCITIES",
    "Accents",
    "BarNumbers",
    "Beams",
    "CellNames",
    "Counting",
    "Entry",
    "Face",
    "Family",
    "Fonts",
    "GhostLook",
    "Kit",
    "KitRow",
    "Margins",
    "Paper",
    "Rests",
    "Rows",
    "Stem",
    "Style",
    "Syllables",
    "TempoLook",
    "Velocities",
    "Voices",
    "Words",
    "capital",
    "design_folder",
    "design_folders",
    "designs",
    "font_folders",
    "include_folders",
    "languages",
    "places_of",
    "preset_text",
    "presets",
    "read_shipped",
    "standard_kit",
    "syllable_sets",
    "syllables_of",
    "templates_folder",
    "watched",
    "words",
    "words_text",
]
