"""`engraver facts`: what it prints for a person and for a program, and published figures that must come out of it."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import Any

import pytest

from engraver import cli
from engraver.starter import copy_starter

ROOT = Path(__file__).parents[2]
SOURCES = ROOT / "tests" / "sources" / "rhythm"


class Command:
    """The program as its entry point starts it."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
        self.monkeypatch, self.capsys = monkeypatch, capsys

    def __call__(self, *arguments: str | Path) -> tuple[int, str, str]:
        self.monkeypatch.setattr(sys, "argv", ["engraver", "facts", *map(str, arguments)])
        code = 0
        try:
            cli.main()
        except SystemExit as ended:
            code = int(ended.code or 0)
        said = self.capsys.readouterr()
        return code, said.out, said.err

    def json(self, path: Path) -> dict[str, Any]:
        code, out, err = self("--json", path)
        assert (code, err) == (0, "")
        found: dict[str, Any] = json.loads(out)
        return found


@pytest.fixture
def facts(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Command:
    return Command(monkeypatch, capsys)


def written(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, "utf-8")
    return path


def one_snare(folder: Path, pattern: str, head: str = "") -> Path:
    marks = pattern.replace(".", "-")
    text = f'title: One Snare\ntempo: 90\n{head}layers: [{{name: Snare, strokes: {{snare: "{marks}"}}}}]\n'
    return written(folder / "one-snare.yaml", text)


def rows(name: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads((SOURCES / name).read_text("utf-8"))["rows"]
    return found


# ------------------------------------------------------------------ published figures, through the command
@pytest.mark.parametrize("row", rows("timelines_16.json"), ids=lambda row: str(row["name"]))
def test_timelines_of_sixteen_steps(facts: Command, tmp_path: Path, row: dict[str, Any]) -> None:
    # Sources stand in the file: Toussaint 2002 and 2013; Gomez, Melvin, Rappaport and Toussaint 2005, figure 8.
    found = facts.json(one_snare(tmp_path, row["pattern"]))
    measures = found["measures"]
    assert (found["steps"], found["measures_over"]) == (16, 16)
    assert measures["pressing"] == row["pressing"]
    assert measures["keith"] == row["keith_toussaint"]
    assert measures["wnbd"] == row["wnbd"]
    assert measures["off_beatness"] == row["off_beatness"]
    assert measures["longuet_higgins_lee"] == row["lhl_sum"]
    assert (measures["euclidean"] is not None) == row["maximally_even"]


@pytest.mark.parametrize("row", rows("timelines_12.json"), ids=lambda row: str(row["name"]))
def test_timelines_of_twelve_steps(facts: Command, tmp_path: Path, row: dict[str, Any]) -> None:
    # Gomez, Melvin, Rappaport and Toussaint 2005, figure 11.
    measures = facts.json(one_snare(tmp_path, row["pattern"], "meter: 12/8\nstep: eighth\n"))["measures"]
    assert (measures["wnbd"], measures["off_beatness"]) == (row["wnbd"], row["off_beatness"])


@pytest.mark.parametrize(
    "row", [r for r in rows("euclidean.json") if r["n"] == 16], ids=lambda row: f"{row['k']} in 16"
)
def test_euclidean_strings_are_known_as_such(facts: Command, tmp_path: Path, row: dict[str, Any]) -> None:
    # Toussaint 2005, Bridges, pages 47-56.
    form = facts.json(one_snare(tmp_path, row["pattern"]))["measures"]["euclidean"]
    assert form == {"k": row["k"], "n": 16, "rotation": 0}


# ------------------------------------------------------------------ the object
def readme(heading: str) -> str:
    text = (ROOT / "README.md").read_text("utf-8")
    match = re.search(rf"^#+ {re.escape(heading)}\n(.*?)(?=^#+ |\Z)", text, re.DOTALL | re.MULTILINE)
    assert match, heading
    return match[1]


def test_the_readme_lists_the_keys_of_the_object(facts: Command) -> None:
    told = re.findall(r"^\| `([^`]+)` \|", readme("Facts as JSON"), re.MULTILINE)
    found = facts.json(ROOT / "book" / "grooves" / "rope-ferry.yaml")
    assert sorted(told) == sorted(found)


@pytest.mark.parametrize("key", ["cells", "measures", "realign"])
def test_the_readme_names_the_keys_within(facts: Command, key: str) -> None:
    row = re.search(rf"^\| `{key}` \| (.*) \|$", readme("Facts as JSON"), re.MULTILINE)
    assert row
    found = facts.json(ROOT / "book" / "grooves" / "rope-ferry.yaml")[key]
    assert set(found) <= set(re.findall(r"`(\w+)`", row[1]))


def test_keys_are_sorted_and_text_is_the_same_each_time(facts: Command) -> None:
    path = ROOT / "book" / "grooves" / "five-doors.yaml"
    _, out, _ = facts("--json", path)
    assert out == json.dumps(json.loads(out), indent=2, sort_keys=True, ensure_ascii=False) + "\n"
    assert facts("--json", path)[1] == out


# ------------------------------------------------------------------ the sheet
THREES = """
title: Copper Steps
tempo: 60
bars: 4
layers:
  - name: Hand
    strokes: {hi-hat: "x-x- x-x- x-x- x-x-"}
  - name: Cycle
    strokes: {bass drum: {cycle: "x--"}}
  - name: Soft
    strokes:
      snare: {bar 2: "---- g--- ---- ----"}
"""


def test_a_sheet_for_a_person(facts: Command, tmp_path: Path) -> None:
    # Step 20 lies in the seventh cell (18-20). At 60 a sixteenth lasts a quarter of a second: the foot plays after
    # three of them, and after one where the phrase starts over (63, 64): four a second. The right hand keeps time on
    # the hi-hat, every second step, and the left plays the ghost note: once, which is no rate.
    code, out, err = facts(written(tmp_path / "copper-steps.yaml", THREES))
    assert (code, err) == (0, "")
    lines = [" ".join(line.split()) for line in out.splitlines()]
    assert lines[:6] == [
        "Copper Steps",
        "Meter 4/4",
        "Tempo quarter = 60",
        "Length 4 bars, 64 sixteenths",
        "Figure bass drum (Cycle); snare (Soft)",
        "Timekeepers hi-hat (Hand)",
    ]
    assert "skeleton " + " ".join("A" * 21) in lines
    assert "all strokes A A A A A A B " + " ".join("A" * 14) in lines
    assert "left over 1 sixteenth, the beginning of another A" in lines
    assert "B 1 times, a changed A" not in lines and "B once, a changed A" in lines
    assert "snare --g" in lines
    assert "– With the ghost notes one of twenty-one cells gets another letter: number 7." in lines
    assert "right foot 4 strokes a second, from bar 4, step 16" in lines
    assert "right hand 2 strokes a second, from bar 1, step 1" in lines
    assert not any(line.startswith("left hand") for line in lines)
    assert "15/16 4 bars, then one cell and 1 sixteenth: nearest in length to the written bar" in lines
    assert max(map(len, out.splitlines())) <= 100


def test_two_groupings_of_a_bar_are_both_named(facts: Command, tmp_path: Path) -> None:
    # Strokes on 0 2 4 5 of 7 speak for 2+2+3 as much as for 2+3+2.
    _, out, _ = facts(one_snare(tmp_path, "x.x.xx.", "meter: 7/8\nstep: eighth\n"))
    assert re.search(r"A bar falls into +(2\+2\+3 or 2\+3\+2|2\+3\+2 or 2\+2\+3)\n", out)


def test_every_groove_of_the_demo_book_has_a_sheet(facts: Command) -> None:
    for path in sorted((ROOT / "book" / "grooves").glob("*.yaml")):
        code, out, err = facts(path)
        assert (code, err) == (0, "")
        assert "None" not in out and "{" not in out


# ------------------------------------------------------------------ which kit, which file
PEDAL = """
title: Own Pedal
tempo: 60
layers: [{name: Pedal, strokes: {log drum: "x-x- x-x- x-x- x-x-"}}]
"""


def test_the_kit_is_that_of_the_book_around_the_groove(facts: Command, tmp_path: Path) -> None:
    book = tmp_path / "book"
    written(book / "style.yaml", "kit:\n  log drum: {position: -2, limbs: feet, key: 77, head: triangle}\n")
    # Eighths at 60 are two a second, all of one foot.
    assert facts.json(written(book / "grooves" / "own-pedal.yaml", PEDAL))["rates"] == {"right foot": 2.0}


def test_elsewhere_the_kit_is_the_standard_one(facts: Command, tmp_path: Path) -> None:
    written(tmp_path / "style.yaml", "kit:\n  log drum: {position: -2, limbs: feet, key: 77, head: triangle}\n")
    code, out, err = facts(written(tmp_path / "own-pedal.yaml", PEDAL))
    assert (code, out) == (1, "")
    assert '"log drum" is not an instrument' in err


def test_a_folder_stands_for_its_only_groove(facts: Command, tmp_path: Path) -> None:
    copy_starter(tmp_path / "songs")
    alone = facts(tmp_path / "songs" / "grooves" / "first-steps.yaml")
    assert facts(tmp_path / "songs") == facts(tmp_path / "songs" / "grooves") == alone
    assert alone[0] == 0


def test_of_a_folder_with_more_grooves_one_has_to_be_named(facts: Command) -> None:
    code, out, err = facts(ROOT / "book")
    assert (code, out) == (1, "")
    assert "facts are those of one groove" in err and "counterweights.yaml" in err


def test_a_file_that_is_not_there(facts: Command, tmp_path: Path) -> None:
    code, out, err = facts(tmp_path / "nowhere.yaml")
    assert (code, out) == (1, "")
    told, hint = err.splitlines()
    assert told == f"{tmp_path / 'nowhere.yaml'}:1:1: there is no such file"
    assert hint == "hint: see that the name is right, and from which folder it is read"


def test_a_link_to_itself(facts: Command, tmp_path: Path) -> None:
    loop = tmp_path / "loop.yaml"
    loop.symlink_to(loop)
    code, out, err = facts(loop)
    assert (code, out) == (1, "")
    assert err.startswith(f"{loop}:1:1: ")


def test_a_faulty_style_is_told_of(facts: Command, tmp_path: Path) -> None:
    written(tmp_path / "book" / "style.yaml", "paper: A7\n")
    code, out, err = facts(written(tmp_path / "book" / "grooves" / "copper-steps.yaml", THREES))
    assert (code, out) == (1, "")
    assert err.startswith(f"{tmp_path / 'book' / 'style.yaml'}:1:8: ")


def test_the_longest_names_fit(facts: Command, tmp_path: Path) -> None:
    name = "Very " * 15 + "soft"
    code, out, _ = facts(written(tmp_path / "copper-steps.yaml", THREES.replace("Soft", name)))
    assert code == 0
    assert f"  + {name}\n" in out and max(map(len, out.splitlines())) <= 100


def test_a_pickup_is_no_bar(facts: Command) -> None:
    path = ROOT / "book" / "grooves" / "millrace.yaml"  # two sixteenths before four bars of twelve
    found = facts.json(path)
    assert (found["bars"], found["steps"]) == (4, 2 + 4 * 12)
    assert re.search(r"Length +4 bars, 50 sixteenths\n", facts(path)[1])


@pytest.mark.parametrize("option", [(), ("--json",)])
def test_faults_are_told_with_their_place(facts: Command, tmp_path: Path, option: tuple[str, ...]) -> None:
    path = one_snare(tmp_path, "x..Y............")
    code, out, err = facts(*option, path)
    assert (code, out) == (1, "")
    assert err.startswith(f"{path}:3:") and '"Y" is not a mark' in err


def test_of_one_stroke_there_are_facts_but_no_findings(facts: Command, tmp_path: Path) -> None:
    path = one_snare(tmp_path, "x...............")
    found = facts.json(path)
    assert (found["cells"], found["cross_rhythms"], found["rates"]) == (None, [], {})
    _, out, _ = facts(path)
    assert "none that can be told from chance" in out and "Findings" not in out
