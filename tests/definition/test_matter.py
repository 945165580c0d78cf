"""The pages around the chapters as book.yaml lists them."""

from __future__ import annotations

from pathlib import Path

import pytest

from engraver import definition
from engraver.definition import MatterKind, sheaves
from engraver.errors import DefinitionError

BOOK = "title: Three Gates\ndate: 2026-01-31\n"
GROOVE = "title: Gate\nmeter: 4/4\ntempo: 80\nlayers:\n  - name: All\n    strokes:\n      snare: x---x---x---x---\n"


def read(folder: Path, more: str) -> definition.BookDefinition:
    (folder / "grooves").mkdir()
    (folder / "grooves" / "gate.yaml").write_text(GROOVE, "utf-8")
    (folder / "book.yaml").write_text(BOOK + more, "utf-8")
    return definition.read(folder)


def test_pages_are_left_out_and_reordered(tmp_path: Path) -> None:
    book = read(tmp_path, "front: [contents, rights]\nback: []\n")
    assert [page.kind for page in book.front] == [MatterKind.CONTENTS, MatterKind.RIGHTS]
    assert book.back == ()


def test_a_page_takes_the_place_of_another(tmp_path: Path) -> None:
    book = read(tmp_path, "front:\n  - page: cautions\n    text: Play *softly*.\n")
    (page,) = book.front
    assert (page.name, page.kind, page.is_own) == ("cautions", MatterKind.CAUTIONS, True)
    assert [block.text for block in page.text] == ["Play softly."]


def test_a_page_of_the_authors_own_has_its_title(tmp_path: Path) -> None:
    book = read(tmp_path, "back:\n  - log\n  - {title: Thanks, text: To the neighbours.}\n")
    assert [(page.name, page.kind, page.title) for page in book.back] == [
        ("log", MatterKind.LOG, ""),
        ("own-back-2", None, "Thanks"),
    ]


def test_neighbouring_sections_share_their_pages(tmp_path: Path) -> None:
    book = read(tmp_path, "front: [how-to, key, cautions, counting]\n")
    assert [[page.name for page in group] for group in sheaves(book.front)] == [
        ["how-to", "key"],
        ["cautions"],
        ["counting"],
    ]


def test_a_section_in_the_authors_words_stands_alone(tmp_path: Path) -> None:
    book = read(tmp_path, "front: [how-to, {page: key, text: Ask me.}, counting]\n")
    assert [len(group) for group in sheaves(book.front)] == [1, 1, 1]


def test_a_part_may_say_something_on_its_opener(tmp_path: Path) -> None:
    book = read(tmp_path, "parts:\n  - {title: First, text: Slowly., chapters: [gate]}\n")
    assert [block.text for block in book.parts[0].text] == ["Slowly."]


@pytest.mark.parametrize(
    ("more", "fault"),
    [
        (
            "front: [index]\n",
            '3:9: "index" is not front matter\n'
            "hint: write rights or contents or cautions or how-to or key or counting; other pages stand in back:",
        ),
        ("front: [rites]\n", '3:9: "rites" is not front matter\nhint: did you mean "rights"?'),
        ("back: [log, log]\n", '3:7: "log" stands twice in this list\nhint: each page comes once'),
        (
            "front:\n  - text: Hello.\n",
            "4:5: a page of your own needs a title\nhint: add title:, or page: with its name",
        ),
        ("front:\n  - title: Hello\n", '4:5: this page has no "text"\nhint: add text: what it says'),
        ("front:\n  - {page: cautoins, text: x}\n", '4:12: "cautoins" is not a page\nhint: did you mean "cautions"?'),
    ],
)
def test_faults_have_their_place(tmp_path: Path, more: str, fault: str) -> None:
    with pytest.raises(DefinitionError) as caught:
        read(tmp_path, more)
    (problem,) = caught.value.problems
    assert problem.position is not None
    place = f"{problem.position.line}:{problem.position.column}"
    assert f"{place}: {problem.message}\nhint: {problem.hint}" == fault
