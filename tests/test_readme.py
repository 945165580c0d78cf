"""What the README tells of the format is what the program reads and prints."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from engraver import definition
from engraver.chapters import playability
from engraver.cli import command_line
from engraver.definition.editions import EditionFile
from engraver.definition.keys import keys_of
from engraver.definition.pattern import STROKES
from engraver.errors import DefinitionError
from engraver.manuscript.planning import read_facts
from engraver.rhythm import Limbs
from engraver.starter import copy_starter
from engraver.style import Style

FOLDER = Path(__file__).parents[1]
README = (FOLDER / "README.md").read_text("utf-8")
BLOCKS = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)
GROOVES = [block for block in BLOCKS if not re.search("^(kit|editions|front):", block, re.MULTILINE)]
PAGES = next(block for block in BLOCKS if block.startswith("front:"))


def section(heading: str) -> str:
    """From a heading to the next."""
    match = re.search(rf"^#+ {re.escape(heading)}\n(.*?)(?=^#+ |\Z)", README, re.DOTALL | re.MULTILINE)
    assert match, heading
    return match[1]


def keys(text: str) -> list[str]:
    """The first column of its tables."""
    return re.findall(r"^\| `([^`]+)` \|", text, re.MULTILINE)


def groove_of(block: str) -> str:
    """A block that shows some keys, with the rest of what a groove needs."""
    needed = {"title": "Example", "tempo": "80", "layers": '[{name: Backbeat, strokes: {snare: {cycle: "x"}}}]'}
    return block + "".join(f"\n{key}: {value}" for key, value in needed.items() if f"\n{key}:" not in f"\n{block}")


@pytest.mark.parametrize("block", GROOVES)
def test_every_example_of_a_groove_can_be_read(block: str) -> None:
    assert definition.to_groove(definition.parse_groove(groove_of(block))).strokes


def test_the_example_of_a_style_can_be_read(tmp_path: Path) -> None:
    (tmp_path / "style.yaml").write_text(next(block for block in BLOCKS if "kit:" in block), "utf-8")
    style = definition.read_style(tmp_path)
    assert (style.paper.name, style.say("index")) == ("Letter", "Register of grooves")
    kit = style.kit
    assert {row.instrument.name for row in kit.rows} - {row.instrument.name for row in Style().kit.rows} == {"log drum"}


def properties(schema: dict[str, object], *path: str) -> list[str]:
    """The keys of a record within a JSON Schema."""
    at: object = schema
    for name in path:
        assert isinstance(at, dict)
        at = at[name]
    assert isinstance(at, dict)
    return list(at["properties"])


def test_the_tables_hold_every_key_of_a_groove_and_of_a_book() -> None:
    groove = section("Writing a groove")
    assert keys(groove) == properties(definition.json_schema("groove"))
    pages = [kind.value for kind in definition.MatterKind]  # the second table of that section
    assert sorted(keys(section("book.yaml"))) == sorted([*properties(definition.json_schema("book")), *pages])


def test_the_table_of_editions_holds_every_key() -> None:
    assert keys(section("Editions and releases")) == [each.name for each in keys_of(EditionFile)]


def test_the_example_of_pages_can_be_read(tmp_path: Path) -> None:
    copy_starter(tmp_path / "book")
    file = tmp_path / "book" / "book.yaml"
    file.write_text(file.read_text("utf-8") + PAGES, "utf-8")
    book = definition.read(tmp_path / "book")
    assert [page.name for page in book.front] == ["rights", "contents", "cautions", "how-to", "own-front-5"]
    assert [page.name for page in book.back] == ["answers", "index"]


def test_the_tables_hold_every_key_of_a_layer_and_of_an_exercise() -> None:
    schema = definition.json_schema("groove")
    layer = properties(schema, "properties", "layers", "items")
    assert sorted(keys(section("Layers"))) == sorted(layer)
    exercise = properties(schema, "properties", "exercises", "items")
    assert keys(section("Exercises, cards, questions")) == exercise


def test_the_table_of_marks_holds_every_mark() -> None:
    told = set(re.findall(r"`(\S)`", section("Marks"))) - {"|", "-"}
    assert told == set(STROKES)


def test_the_table_of_instruments_holds_the_standard_kit() -> None:
    table = section("Instruments")
    for limbs in Limbs:
        row = re.search(rf"^\| {limbs.value} \| (.*) \|$", table, re.MULTILINE)
        assert row
        kit = {row.instrument.name for row in Style().kit.rows if row.limbs is limbs}
        assert set(row[1].split(", ")) == kit


def test_the_faults_are_printed_as_it_shows_them(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    copy_starter(Path("my-book"))
    file = Path("my-book/grooves/first-steps.yaml")
    faulty = file.read_text("utf-8").replace("ride:  ", "ryde:  ").replace('"--X- --X-"', '"--Y- --X-"')
    file.write_text(faulty, "utf-8")
    with pytest.raises(DefinitionError) as raised:
        definition.read(Path("my-book"))
    shown = re.search(r"```text\n(.*?)\n```", section("When something is wrong"), re.DOTALL)
    assert shown and shown[1] == str(raised.value)


def test_what_no_body_can_play_is_told_as_it_shows_it() -> None:
    lanes = '      bass drum: "xxxx xxxx xxxx xxxx"\n'
    text = f"title: Mill\ntempo: 220\nlayers:\n  - name: Feet\n    role: figure\n    strokes:\n{lanes}"
    written = definition.parse_groove(text, Path("songs/grooves/mill.yaml"))
    groove, facts = read_facts(written, Style())
    refused = playability(written, groove, facts.limbs).refusals
    shown = re.findall(r"```text\n(.*?)\n```", section("When something is wrong"), re.DOTALL)
    assert [str(problem) for problem in refused] == shown[1:]


def test_its_blocks_are_yaml() -> None:
    assert len(BLOCKS) >= 6
    assert all(isinstance(yaml.safe_load(block), dict) for block in BLOCKS)


def test_the_tables_hold_every_command_and_every_option() -> None:
    commands = command_line.commands.commands
    told = re.findall(r"^\| `engraver (\w+)", section("Commands"), re.MULTILINE)
    assert told == list(commands)
    rows = re.findall(r"^\| (`--[^|]+) \| ([a-z, ]+) \|", section("Commands"), re.MULTILINE)
    shown = {
        (option, name)
        for options, of in rows
        for option in re.findall(r"--[a-z-]+", options)
        for name in of.split(", ")
    }
    taken = {
        (each.opts[-1], name) for name, command in commands.items() for each in command.params if each.opts[0][0] == "-"
    }
    assert shown == taken


def test_every_exit_code_is_told() -> None:
    told = section("Commands").partition("Exit codes")[2]
    codes = {0, 2, 70, 130} | {code for _, code in command_line.EXIT_CODES}
    assert {int(code) for code in re.findall(r"\b\d+\b", told)} == codes


def test_its_links_lead_somewhere() -> None:
    headings = {
        re.sub(r"[^a-z0-9 -]", "", heading.lower()).replace(" ", "-")
        for heading in re.findall(r"^#+ (.*)$", README, re.MULTILINE)
    }
    links = re.findall(r"\]\(([^)]+)\)", README)
    within = [link[1:] for link in links if link.startswith("#")]
    assert within and set(within) <= headings
    assert [link for link in links if not link.startswith("#") and not (FOLDER / link).exists()] == []
