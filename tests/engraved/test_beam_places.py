"""Beams stand where notation says and LilyPond's own search would put them, though the page asks for neither search.

Reference: LilyPond 2.24.3's beam quanting (lily/beam-quanting.cc) and its automatic beams, asked for or left out in the
same sources.
"""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from pathlib import Path

import pytest

from engraver import definition, lilypond, proof
from engraver.definition.settings import in_force
from engraver.engraving import Job, Workshop
from engraver.manuscript.planning import plan_book
from engraver.proof.drawn import things
from engraver.specimen.make import NAME, figures
from engraver.style import Style

BOOK = Path(__file__).parents[2] / "book"
SETTINGS = '\\include "design.ily"\n'
BY_SEARCH = SETTINGS + (
    "\\layout { \\context { \\DrumVoice \\override Beam.positions = #beam::place-broken-parts-individually } }\n"
)


@pytest.mark.parametrize(
    ("design", "preset"), [("workbook", "published positions"), ("edition", "large print"), ("workbook", "one voice")]
)
def test_pages_are_those_of_lilyponds_own_search(
    design: str, preset: str, shops: Mapping[str, Workshop], tmp_path: Path
) -> None:
    """To the byte: grace notes, rolls, low drums and tuplets are among the chapters."""
    shutil.copytree(BOOK, tmp_path / "book", ignore=shutil.ignore_patterns("build"))
    (tmp_path / "book" / "style.yaml").write_text(f"preset: {preset}\ndesign: {design}\n")
    texts = {made.plan.name: str(made.source.text) for made in plan_book(definition.read(tmp_path / "book"))}
    jobs = [Job(name, text) for name, text in texts.items()]
    searched = [Job(name, text.replace(SETTINGS, BY_SEARCH, 1)) for name, text in texts.items()]
    results = shops[design].engrave([*jobs, *searched])
    assert [result.failure for result in results] == [""] * 2 * len(jobs)
    pages = [result.pdf.read_bytes() for result in results if result.pdf]
    assert len(set(pages)) == len(jobs)
    assert pages[: len(jobs)] == pages[len(jobs) :]


def test_no_beam_stands_that_notation_did_not_write(shop: Workshop) -> None:
    """In the cells of the specimen LilyPond would join strokes of different cells (measured, 2.24.3)."""
    style = Style()
    cells = [figure for figure in figures(style) if "regrouped" in figure.passage.name]
    text = lilypond.specimen(cells, in_force(style), style)
    [result] = shop.engrave([Job(NAME, proof.read_back(text))])
    (drawn,) = result.with_suffix(".drawn")
    beams = sum(thing.kind == "Beam" for thing in things(drawn))
    assert beams == text.count("[") > 10
