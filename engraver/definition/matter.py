"""The pages around the chapters as book.yaml lists them: which, in what order, and in whose words.

In: a list of names, or of mappings with a text of the author's. Out: a `MatterPage` each.
"""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import Enum
from itertools import groupby
from typing import ClassVar

from engraver.definition.keys import ByShape, ListOf, Reading, Record, Written, key
from engraver.definition.kinds import Choice, Line
from engraver.definition.prose import ProseText
from engraver.definition.source import Node
from engraver.prose import Prose


class MatterKind(Enum):
    """A page, or a section of one, that the program can make."""

    RIGHTS = "rights"  # who owns what, where the grooves come from, and others' music
    CONTENTS = "contents"
    CAUTIONS = "cautions"  # hearing, strain, breaks
    HOW_TO = "how-to"
    KEY = "key"  # the signs on the staff
    COUNTING = "counting"  # and sticking
    ANSWERS = "answers"
    LOG = "log"  # a practice log to fill in
    PLAN = "plan"  # which exercises on which day
    INDEX = "index"
    GRADES = "grades"  # the exercises, easiest first


# Sections that share pages where they follow one another.
SECTIONS = {
    MatterKind.HOW_TO: "reading",
    MatterKind.KEY: "reading",
    MatterKind.COUNTING: "reading",
    MatterKind.INDEX: "index",
    MatterKind.GRADES: "index",
}
FRONT = (
    MatterKind.RIGHTS,
    MatterKind.CONTENTS,
    MatterKind.CAUTIONS,
    MatterKind.HOW_TO,
    MatterKind.KEY,
    MatterKind.COUNTING,
)
BACK = (MatterKind.ANSWERS, MatterKind.LOG, MatterKind.PLAN, MatterKind.INDEX, MatterKind.GRADES)


@dataclass(frozen=True, slots=True)
class MatterPage:
    """``kind`` None is a page of the author's own; ``text`` empty means in the program's words."""

    name: str
    kind: MatterKind | None
    title: str = ""
    text: Prose = ()

    @property
    def is_own(self) -> bool:
        """In the author's words, whether it takes the place of another or not."""
        return bool(self.text)


_KIND = Choice({kind.value: kind for kind in MatterKind}, "a page")


@dataclass(frozen=True, slots=True, kw_only=True)
class PageFile(Written):
    page: MatterKind | None = key(_KIND, "the page it stands for", None)
    title: str = key(Line(), "its title", "")
    text: Prose = key(ProseText(), "what it says")
    noun: ClassVar[str] = "page"


@dataclass(frozen=True, slots=True)
class _Pages:
    """A list of pages, each once."""

    kinds: tuple[MatterKind, ...]
    where: str
    elsewhere: str

    def read(self, node: Node, reading: Reading) -> tuple[MatterPage, ...]:
        listed = self._list().read(node, reading)
        return tuple(self._checked(listed, node, reading))

    def _checked(self, listed: Iterable[MatterKind | PageFile], node: Node, reading: Reading) -> Iterator[MatterPage]:
        seen: set[MatterKind] = set()
        for number, item in enumerate(listed, start=1):
            kind = item if isinstance(item, MatterKind) else item.page
            place = node.position if isinstance(item, MatterKind) else item.position
            if kind in seen:
                raise reading.reject(place, f'"{kind.value}" stands twice in this list', "each page comes once")
            if kind:
                seen.add(kind)
            if isinstance(item, MatterKind):
                yield MatterPage(item.value, item)
                continue
            names_page = any(name == "page" for name, _ in item.places)  # perhaps wrongly, which is a fault already
            if not item.title and not names_page:
                raise reading.reject(place, "a page of your own needs a title", "add title:, or page: with its name")
            yield MatterPage(kind.value if kind else f"own-{self.where}-{number}", kind, item.title, item.text)

    def _list(self) -> ListOf:
        known = {kind.value: kind for kind in self.kinds}
        names = Choice(known, f"{self.where} matter", f"; other pages stand in {self.elsewhere}:")
        return ListOf(ByShape(scalar=names, entries=Record(PageFile)))

    def json(self) -> dict[str, object]:
        return self._list().json()


FRONT_PAGES = _Pages(FRONT, "front", "back")
BACK_PAGES = _Pages(
    (*BACK, MatterKind.CAUTIONS, MatterKind.HOW_TO, MatterKind.KEY, MatterKind.COUNTING), "back", "front"
)


def standard(kinds: Iterable[MatterKind]) -> tuple[MatterPage, ...]:
    return tuple(MatterPage(kind.value, kind) for kind in kinds)


def sheaves(pages: Iterable[MatterPage]) -> Iterator[tuple[MatterPage, ...]]:
    """Pages that are engraved together: neighbouring sections, and every other page by itself."""

    def together(numbered: tuple[int, MatterPage]) -> str:
        number, page = numbered
        family = SECTIONS.get(page.kind) if page.kind and not page.is_own else None
        return family or f"page {number}"

    for _, group in groupby(enumerate(pages), together):
        yield tuple(page for _, page in group)
