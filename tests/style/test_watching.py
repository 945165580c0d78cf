"""Every row of a style that is read is noted, by whatever way it is read."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace

import pytest

from engraver.rhythm import Instrument
from engraver.style import Rows, Style, watched

SNARE, KICK = Instrument("snare"), Instrument("bass drum")


def read(style: Style, look: Callable[[Style], object]) -> set[str]:
    noted: set[str] = set()
    look(watched(style, noted.add))
    return noted


WAYS: list[tuple[Callable[[Style], object], set[str]]] = [
    (lambda style: None, set()),
    (lambda style: style.ghosts, {"ghosts"}),
    (lambda style: style.page.width, {"paper", "margins"}),
    (lambda style: style.kit[SNARE], {"kit snare"}),
    (lambda style: KICK in style.kit, {"kit bass drum"}),
    (lambda style: style.kit.names(), {"kit"}),
    (lambda style: style.say("tempo"), {"language", "word tempo"}),
    (lambda style: style.say.number(3), {"language", "word numbers"}),
    (lambda style: [*style.say.entries], {"language", *(f"word {name}" for name in Style().say.entries)}),
]


@pytest.mark.parametrize(("look", "rows"), WAYS, ids=[str(number) for number in range(len(WAYS))])
def test_what_is_read_is_noted_and_nothing_else(look: Callable[[Style], object], rows: set[str]) -> None:
    assert read(Style(), look) == rows


def test_a_watched_style_reads_like_the_style() -> None:
    style = Style()
    seen = watched(style, lambda row: None)
    assert all(getattr(seen, f.name) == getattr(style, f.name) for f in fields(Style) if f.name != "kit")
    assert seen.kit.rows == style.kit.rows
    assert seen.say("tempo") == style.say("tempo")


def test_every_setting_is_a_row_or_seen_through_its_rows() -> None:
    """A setting that is added to the style is watched without anybody's doing, by its name in style.yaml."""
    for field in fields(Style):
        noted = read(Style(), lambda style, name=field.name: repr(getattr(style, name)))  # type: ignore[misc]
        assert noted == {field.name.replace("_", " ")} or field.name in ("kit", "wording"), field.name


def test_a_row_says_something_else_when_it_changes_and_only_then() -> None:
    style = Style()
    loud = style.kit[SNARE]
    other = replace(style, staff_size=20.0, kit=style.kit.with_rows([replace(loud, head="diamond")]))
    before, after = Rows(style), Rows(other)
    rows = ("staff size", "paper", "kit snare", "kit ride", "word tempo")
    assert [name for name in rows if before(name) != after(name)] == ["staff size", "kit snare"]
    assert Rows(style)("kit no such thing") == Rows(other)("kit no such thing") == "None"
