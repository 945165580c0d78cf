"""docs/style.md tells every setting as the program reads it."""

from __future__ import annotations

import re
import runpy
from pathlib import Path

import pytest
import yaml

from engraver import definition
from engraver.definition.settings import in_force, settings
from engraver.style import Style, presets

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs/style.md").read_text("utf-8")
BLOCKS = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)


def test_the_page_is_what_the_declarations_say() -> None:
    written = runpy.run_path(str(ROOT / "docs/style_page.py"))["page"]()
    assert written == PAGE, "run: python docs/style_page.py docs/style.md"


@pytest.mark.parametrize("block", [block for block in BLOCKS if "fonts/" not in block])
def test_its_examples_can_be_read(block: str, tmp_path: Path) -> None:
    (tmp_path / "style.yaml").write_text(block, "utf-8")
    assert definition.read_style(tmp_path) != Style()


def test_a_default_that_is_told_changes_nothing(tmp_path: Path) -> None:
    told = {each.name: each.default for each in settings() if each.default}
    assert {"paper", "staff size", "ghosts", "voices", "counting", "handedness"} <= told.keys()
    (tmp_path / "style.yaml").write_text("".join(f"{name}: {value}\n" for name, value in told.items()), "utf-8")
    assert definition.read_style(tmp_path) == Style()


def test_every_value_that_is_told_can_be_written(tmp_path: Path) -> None:
    for each in settings():
        for value in each.values.split(", ") if each.values and " to " not in each.values else ():
            more = "voices: one\n" if value == "head side" else ""  # which two voices cannot have
            (tmp_path / "style.yaml").write_text(f"{more}{each.name}: {value}\n", "utf-8")
            assert definition.read_style(tmp_path), (each.name, value)


def test_what_is_in_force_is_told_of_every_setting_but_the_preset() -> None:
    assert [name for name, _ in in_force(Style())] == [each.name for each in settings()][1:]


def test_the_first_preset_is_the_standard_style(tmp_path: Path) -> None:
    (tmp_path / "style.yaml").write_text("preset: published positions\n", "utf-8")
    assert definition.read_style(tmp_path) == Style()


@pytest.mark.parametrize("name", presets())
def test_the_author_s_own_rows_win_over_a_preset(name: str, tmp_path: Path) -> None:
    own = "paper: Letter\nrests: sparing\nkit: {snare: {head: diamond}}\nwords: {index: Register}\n"
    (tmp_path / "style.yaml").write_text(f"preset: {name}\n{own}", "utf-8")
    style = definition.read_style(tmp_path)
    assert (style.paper.name, style.rests.value, style.say("index")) == ("Letter", "sparing", "Register")
    assert next(row.head for row in style.kit.rows if row.instrument.name == "snare") == "diamond"


def test_a_preset_says_something_of_its_own() -> None:
    assert len(presets()) >= 3
    for name in presets()[1:]:
        rows = yaml.safe_load((ROOT / f"engraver/style/presets/{name.replace(' ', '-')}.yaml").read_text("utf-8"))
        assert rows
