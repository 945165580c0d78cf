"""Data flows one way: every part of the program imports only what comes before it, as its imports show."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "engraver"

# What a part may import beside itself and `errors`, which all may. The arrows are ours.
ARROWS = {
    "errors": "",
    "prose": "",
    "file_name": "",
    "book_words": "",
    "rhythm": "",
    "style": "rhythm",
    "definition": "rhythm style prose file_name book_words",
    "analysis": "rhythm",
    "chapters": "rhythm style prose definition analysis",
    "notation": "rhythm style",
    "lilypond": "rhythm style prose book_words analysis chapters notation",
    "engraving": "",
    "binding": "",
    "export": "rhythm style prose book_words chapters notation file_name",
    "proof": "rhythm style chapters notation lilypond engraving",
    "memory": "",
    "starter": "",
    "manuscript": "rhythm style book_words definition analysis chapters notation lilypond engraving binding export"
    " memory",
    "making": "style definition chapters lilypond engraving binding proof memory manuscript file_name",
    "specimen": "style definition analysis chapters lilypond binding manuscript making",
    "release": "style definition binding export file_name manuscript making",
    "build": "definition export manuscript making",
    "cli": "style definition export starter manuscript making specimen release build",
    "__main__": "cli",
}


def parts() -> list[str]:
    """The folders and modules right below the package."""
    inside = (path for path in PACKAGE.iterdir() if path.suffix == ".py" or (path / "__init__.py").is_file())
    return sorted(path.stem for path in inside if path.stem != "__init__")


def imported(text: str) -> Iterator[tuple[int, str]]:
    """Line and part of every import from the package, in functions and under conditions too."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.ImportFrom):
            assert not node.level, f"line {node.lineno} imports relative to itself, which this test does not follow"
            names = [node.module or ""] if node.module != "engraver" else [f"engraver.{a.name}" for a in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        else:
            continue
        yield from ((node.lineno, name.split(".")[1]) for name in names if name.startswith("engraver."))


def backwards(part: str, text: str) -> list[str]:
    allowed = {part, "errors", "__version__", *ARROWS[part].split()}
    return [f"line {line} imports {name}" for line, name in imported(text) if name not in allowed]


def modules(part: str) -> list[Path]:
    folder = PACKAGE / part
    return sorted(folder.rglob("*.py")) if folder.is_dir() else [folder.with_suffix(".py")]


@pytest.mark.parametrize("part", parts())
def test_a_part_imports_only_what_comes_before_it(part: str) -> None:
    found = {path.name: wrong for path in modules(part) if (wrong := backwards(part, path.read_text("utf-8")))}
    assert found == {}


def test_the_arrows_go_round_in_no_circle_and_name_every_part() -> None:
    assert sorted(ARROWS) == parts()
    order = list(TopologicalSorter({part: allowed.split() for part, allowed in ARROWS.items()}).static_order())
    assert set(order) == set(ARROWS)
    assert [part for part, allowed in ARROWS.items() if "build" in allowed.split()] == ["cli"]


def neighbours(text: str) -> set[str]:
    """The modules that a module imports, in functions too; packages, which only pass names on, are not looked into."""
    froms = [node for node in ast.walk(ast.parse(text)) if isinstance(node, ast.ImportFrom) and node.module]
    inside = {f"{node.module}.{alias.name}" for node in froms for alias in node.names}
    return {node.module for node in froms if node.module} | inside


def test_no_modules_import_one_another_in_a_circle() -> None:
    """Not even when they are called: what one needs of the other has its place below both."""
    files = [path for path in PACKAGE.rglob("*.py") if path.name != "__init__.py"]
    names = {path: ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts) for path in files}
    arrows = {name: neighbours(path.read_text("utf-8")) & set(names.values()) for path, name in names.items()}
    assert sum(map(len, arrows.values())) > len(arrows)
    TopologicalSorter(arrows).prepare()  # raises CycleError, which names the circle


def test_engraving_and_binding_know_no_music() -> None:
    for part in ("engraving", "binding"):
        known = {name for path in modules(part) for _, name in imported(path.read_text("utf-8"))}
        assert known <= {part, "errors"}, part


@pytest.mark.parametrize(
    "line",
    [
        "from engraver import build",
        "import engraver.build",
        "import os, engraver.build.inner",
        "from engraver.build import Where",
        "def late():\n    from engraver import rhythm, build",
        "if True:\n    import engraver.build as made",
    ],
)
def test_every_way_of_writing_an_import_is_seen(line: str) -> None:
    assert len(backwards("style", line)) == 1
