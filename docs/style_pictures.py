"""The pictures of docs/style.md: what each setting looks like, its values one under the other.

In: a row of the table below, with the lines of style.yaml for each value. Out: docs/style/NAME.png, cut to its ink.
``make pictures`` runs it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

import pypdfium2
from PIL import Image, ImageChops

from engraver import analysis, definition, lilypond
from engraver.chapters import Passage
from engraver.chapters.cells import regroup
from engraver.engraving import Engine, Job, Workshop
from engraver.lilypond import Figure
from engraver.manuscript.planning import read_facts
from engraver.style import CellNames, Style, include_folders

SCALE, GAP, WIDTH = 1.7, 22, 900  # pixels a point, between values, and of the widest picture

STRAIGHT = """
  - {name: Time, strokes: {hi-hat: "x-x- x-x- x-x- x-x-"}}
  - {name: Snare, strokes: {snare: "-g-- X--g -g-- X---"}}
  - {name: Feet, strokes: {bass drum: "x--- --x- x-x- ----"}}"""
FOOT = """
  - {name: Hands, strokes: {hi-hat: "x-x- x-x- x-x- x-x-", snare: "---- x--- ---- x---"}}
  - {name: Feet, strokes: {bass drum: "x--- ---- --x- ----"}}"""
SPARSE = """
  - {name: Hands, strokes: {hi-hat: "x-x- x-x- x-x- x-x-", snare: "---- x--- ---- x---"}}
  - {name: Feet, strokes: {bass drum: {bar 1: "x--- --x- x--- ----"}}}"""
RUN = """
  - {name: Hands, strokes: {snare: "xxxx xxxx xxxx xxxx"}}
  - {name: Feet, strokes: {bass drum: "x--- x--- x--- x---"}}
sticking: {hands: "RLRR LRLL RLRR LRLL"}"""
CELLS = """
  - {name: Cycle, strokes: {bass drum: {cycle: "x-x---"}, crash: {cycle: "X-----"}}}
  - {name: Ghosts, strokes: {snare: {bars 1-3: "---- --g- ---- ---- ---- ---- -g-- ---- -g-- ---- ---- ----"}}}
cells: {length: 6}"""


@dataclass(frozen=True, slots=True)
class Shown:
    """A setting: its values as lines of style.yaml, and the layers of a groove that shows it."""

    name: str
    values: tuple[str, ...]
    layers: str = STRAIGHT
    bars: int = 1
    is_exercise: bool = False

    @property
    def groove(self) -> str:
        return f"title: T\ntempo: 96\nbars: {self.bars}\nlayers:{self.layers}\n"


PICTURES = (
    Shown("staff size", ("staff size: 17", "staff size: 21", "staff size: 29")),
    Shown("voices", ("voices: two", "voices: one"), FOOT),
    Shown("ghosts", ("ghosts: parentheses", "ghosts: small", "ghosts: both")),
    Shown("accents", ("voices: one\naccents: stem side", "voices: one\naccents: head side")),
    Shown("beams", ("beams: half bars", "beams: beats"), FOOT),
    Shown("rests", ("rests: sparing", "rests: full"), SPARSE, bars=2),
    Shown("repeat bars", ("repeat bars: yes", "repeat bars: no"), FOOT, bars=2),
    Shown("bars per line", ("bars per line: 0", "bars per line: 2"), FOOT, bars=4),
    Shown("bar numbers", ("bar numbers: none", "bar numbers: lines", "bar numbers: all bars"), FOOT, bars=6),
    Shown("tempo", ("tempo: note", "tempo: about", "tempo: bpm"), is_exercise=True),
    Shown("sticking", ("sticking: yes", "sticking: no"), RUN),
    Shown("counting", ("counting: none", "counting: first bar", "counting: all bars"), FOOT, bars=2),
    Shown("syllables", ("syllables: 1 e & a", "syllables: 1 e + a", "syllables: 1 e und e"), RUN),
    Shown("cell names", ("cell names: letters", "cell names: primes"), CELLS, bars=3),
    Shown("colours", ("colours: yes", "colours: no"), CELLS, bars=3),
    Shown("coloured notes", ("coloured notes: yes", "coloured notes: no"), CELLS, bars=3),
    Shown("handedness", ("handedness: right", "handedness: left"), RUN),
    Shown(
        "kit", ("", "kit: {snare: {head: diamond}, bass drum: {position: -4}, left bass drum: {position: -3}}"), FOOT
    ),
)
PLAIN = "counting: none\nsticking: no\n"
FITTING = frozenset({"counting", "syllables", "sticking", "handedness"})  # what says itself which rows it shows


def main(folder: Path, *names: str) -> None:
    """All pictures, or those named."""
    folder.mkdir(parents=True, exist_ok=True)
    for shown in (each for each in PICTURES if not names or each.name in names):
        pictures = list(_engraved(shown))
        _stacked(pictures).save(folder / f"{shown.name.replace(' ', '-')}.png", optimize=True)


def _engraved(shown: Shown) -> Iterator[Image.Image]:
    for value in shown.values:
        style = _style(value if shown.name in FITTING else f"{PLAIN}{value}")
        text = lilypond.illustration(_figure(shown, style), style, as_exercise=shown.is_exercise)
        with TemporaryDirectory() as store:
            include = include_folders(style.design)
            with Workshop(Engine.find(), include, Path(store), workers=1) as shop:
                [result] = shop.engrave([Job(shown.name, text)])
            assert result.pdf, result.failure
            page = pypdfium2.PdfDocument(result.pdf)[0]
            yield _cut(page.render(scale=SCALE).to_pil().convert("RGB"))


def _style(rows: str) -> Style:
    with TemporaryDirectory() as folder:
        (Path(folder) / "style.yaml").write_text(rows, "utf-8")
        return definition.read_style(Path(folder))


def _figure(shown: Shown, style: Style) -> Figure:
    read = definition.parse_groove(shown.groove, style=style)
    groove, facts = read_facts(read, style)
    facts = analysis.with_primes(facts) if style.cell_names is CellNames.PRIMES else facts
    barred = regroup(groove, facts) if read.cells else None
    if not barred or not facts.cells:
        return Figure("", Passage(shown.name, groove))
    changed = frozenset(cell.letter for cell in facts.cells.cells if cell.base != cell.letter)
    return Figure("", replace(barred, name=shown.name), changed)


def _cut(picture: Image.Image) -> Image.Image:
    """The ink with a little white around it."""
    box = ImageChops.difference(picture, Image.new("RGB", picture.size, "white")).getbbox()
    assert box, "a page without ink"
    left, top, right, bottom = box
    return picture.crop((left - 4, top - 4, right + 4, bottom + 4))


def _stacked(pictures: list[Image.Image]) -> Image.Image:
    height = sum(picture.height for picture in pictures) + GAP * (len(pictures) - 1)
    whole = Image.new("RGB", (max(picture.width for picture in pictures), height), "white")
    y = 0
    for picture in pictures:
        whole.paste(picture, (0, y))
        y += picture.height + GAP
    if whole.width > WIDTH:
        whole = whole.resize((WIDTH, whole.height * WIDTH // whole.width), Image.Resampling.LANCZOS)
    return whole.quantize(64, dither=Image.Dither.NONE)


if __name__ == "__main__":
    main(Path(sys.argv[1]), *sys.argv[2:])
