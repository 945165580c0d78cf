"""The small book that a new folder begins with: it reads without a fault, and its comments say what is so."""

from __future__ import annotations

from fractions import Fraction
from importlib import resources
from pathlib import Path

from engraver import definition
from engraver.rhythm import Instrument
from engraver.style import Style

STARTER = Path(str(resources.files("engraver"))) / "starter"


def test_it_reads_without_a_fault() -> None:
    assert definition.check(STARTER) == ()


def test_its_style_spells_out_the_defaults() -> None:
    assert definition.read_style(STARTER) == Style()


def test_its_cycle_of_three_fills_three_bars() -> None:
    (chapter,) = definition.read(STARTER).chapters
    groove = definition.to_groove(chapter.groove)
    bass = [stroke.onset * 8 for stroke in groove.strokes if stroke.instrument == Instrument("bass drum")]
    assert bass == list(range(0, 24, 3))
    assert groove.length == 3 and groove.step == Fraction(1, 8)


def test_the_kit_rows_in_its_comments_can_be_used(tmp_path: Path) -> None:
    """Taking the # away gives a style that reads."""
    lines = (STARTER / "style.yaml").read_text("utf-8").splitlines()
    start = lines.index("# kit:")
    (tmp_path / "style.yaml").write_text("\n".join(line.removeprefix("# ") for line in lines[start:]), "utf-8")
    assert definition.read_style(tmp_path).kit[Instrument("log drum")].key == 77
