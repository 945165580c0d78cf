"""Every decision an author can change, with its default. Read from style.yaml by `definition`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from engraver.style.counting import Syllables, syllables_of
from engraver.style.fonts import Fonts
from engraver.style.kit import Kit, standard_kit
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
from engraver.style.words import Entry, Words, words


@dataclass(frozen=True, slots=True)
class Style:
    """``staff_size`` is the height of the staff in points, ``text_size`` that of the words in per cent of the design's
    own sizes; ``design`` is a folder of templates.

    ``bars_per_line`` 0: as many as fit. ``wording``: the author's own words for rows of the words file.
    """

    design: str = "workbook"
    paper: Paper = PAPERS["A4"]
    margins: Margins = field(default_factory=Margins)
    fonts: Fonts = field(default_factory=Fonts)
    staff_size: float = 21.0
    text_size: float = 100.0
    language: str = "en"
    wording: Mapping[str, Entry] = field(default_factory=dict, hash=False)
    voices: Voices = Voices.TWO
    ghosts: GhostLook = GhostLook.PARENTHESES
    accents: Accents = Accents.STEM
    beams: Beams = Beams.HALF_BARS
    rests: Rests = Rests.SPARING
    repeat_bars: bool = False
    bars_per_line: int = 0
    bar_numbers: BarNumbers = BarNumbers.NONE
    tempo: TempoLook = TempoLook.NOTE
    sticking: bool = True
    counting: Counting = Counting.FIRST_BAR
    syllables: Syllables = field(default_factory=lambda: syllables_of("en"))
    cell_names: CellNames = CellNames.LETTERS
    colours: bool = True
    coloured_notes: bool = False
    left_handed: bool = False
    kit: Kit = field(default_factory=standard_kit)

    @property
    def page(self) -> Paper:
        """What the page design has to fill: the paper without the margins that are added to the design's own."""
        return self.margins.within(self.paper)

    @property
    def say(self) -> Words:
        """The words of the language, with the author's own laid over them."""
        return words(self.language).reworded(self.wording)
