"""The texts of one book, from memory where nothing that makes them has changed, else made now.

In: the book's folder, then its definition, then its pages. Out: its definition and every text that is engraved for it.
A text is made from a groove's file, the rows of the style and of the words that were read for it, the program and the
templates. What only making needs is imported where it is made: a book that did not change is built without it.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, fields
from pathlib import Path
from typing import TYPE_CHECKING

from engraver import definition
from engraver.definition import BookDefinition, ChapterDefinition, GrooveDefinition
from engraver.errors import DefinitionError, NotationError, Problem
from engraver.manuscript.collation import Outline, around, outline
from engraver.manuscript.fingerprints import program, templates
from engraver.memory import Memory, Recalled, pack, unpack
from engraver.style import Rows, Style, watched

if TYPE_CHECKING:
    from engraver.chapters import ChapterPlan
    from engraver.lilypond import Matter

Write = Callable[[Style], bytes]
Recall = Callable[[str, Mapping[str, str], Write], Recalled]


@dataclass(frozen=True, slots=True)
class Manuscript:
    """A chapter as it goes to the engraver, in one text or, if it is long, in several. ``key``: all that made it."""

    definition: ChapterDefinition
    outline: Outline
    texts: tuple[str, ...]
    warnings: tuple[Problem, ...]
    packed_plan: bytes
    key: str

    @property
    def name(self) -> str:
        return self.outline.name

    @property
    def plan(self) -> ChapterPlan:
        """Unpacked when it is asked for, which is seldom."""
        plan: ChapterPlan = unpack(self.packed_plan)
        return plan


@contextmanager
def opened_texts(folder: Path, book: str) -> Iterator[Texts]:
    """Remembered in a folder, where other books may be remembered too."""
    memory = Memory(folder, book)
    try:
        yield Texts(memory)
    finally:
        memory.close()


class Texts:
    """What is told of the sources by name: ``reasons`` why a text was written again, "" where it was remembered;
    ``new``: those that the last build of this book did not have; ``changed``: those whose text was another then.
    """

    def __init__(self, memory: Memory) -> None:
        self.memory = memory
        self._program = program()
        self._files: dict[Path, str] = {}
        self._plans: dict[str, ChapterPlan] = {}
        self.reasons: dict[str, str] = {}
        self.new: set[str] = set()
        self.changed: set[str] = set()

    @property
    def written(self) -> frozenset[str]:
        return frozenset(name for name, reason in self.reasons.items() if reason)

    def read(self, folder: Path) -> BookDefinition:
        """Raises one DefinitionError with all the problems of all files."""
        return definition.read(folder, self._groove)

    def manuscripts(self, book: BookDefinition) -> Iterator[Manuscript]:
        """Each as soon as it is there. At the end raises one NotationError with all that cannot be written."""
        recall = self._recaller(book.style)
        refused: list[Problem] = []
        for chapter in book.chapters:
            try:
                yield self._manuscript(chapter, recall)
            except (DefinitionError, NotationError) as error:
                refused += error.placed(chapter.groove.position)
        if refused:
            raise NotationError(refused)

    def matter(self, book: BookDefinition, made: Sequence[Manuscript]) -> Mapping[str, str]:
        """The pages around the chapters, but for those that have to know the numbers of the others."""

        def write(style: Style) -> bytes:
            from engraver.manuscript.book_matter import matter_sources

            return json.dumps(dict(matter_sources(book, self._matter(book, made, style)))).encode()

        found = self._recaller(book.style)("book", _ground(book, made), write)
        sources: dict[str, str] = json.loads(found.content)
        for name, text in sources.items():
            self._note(name, text, found.reason)
        return sources

    def index(
        self,
        book: BookDefinition,
        made: Sequence[Manuscript],
        labels: Mapping[str, str],
        sections: Sequence[str],
        name: str = around("index"),
    ) -> str:
        """``labels``: what the page is called on which an anchor lies; ``sections``: those that share the sheaf."""

        def write(style: Style) -> bytes:
            from engraver import lilypond

            return lilypond.index(self._matter(book, made, style), sections, labels).encode()

        numbers = {"the numbers of the pages": repr((labels, sections))}
        return self._text(name, book.style, {**numbers, **_ground(book, made)}, write)

    def furniture(self, style: Style, worn: str, write: Write, name: str = around("furniture")) -> str:
        """``worn``: all that decides what the pages of the book wear."""
        return self._text(name, style, {"the numbers of the pages": worn}, write)

    def _groove(self, text: str, path: Path, style: Style) -> GrooveDefinition:
        self._files[path] = text
        ground = {"its file": text, "its place": str(path)}
        kept = self._recaller(style)(
            f"the file of {path.stem}", ground, lambda seen: pack(definition.parse_groove(text, path, seen))
        )
        groove: GrooveDefinition = unpack(kept.content)
        return groove

    def _manuscript(self, chapter: ChapterDefinition, recall: Recall) -> Manuscript:
        def write(style: Style) -> bytes:
            from engraver.manuscript.planning import plan_chapter

            made = plan_chapter(chapter, style, style.say)
            texts = tuple(str(part) for part in made.source.parts)
            return pack((outline(made.plan, len(texts)), texts, made.plan.warnings, pack(made.plan)))

        path = chapter.groove.path
        found = recall(chapter.name, {"its file": self._files[path], "its place": str(path)}, write)
        known, texts, advice, plan = unpack(found.content)
        self._note(chapter.name, "".join(texts), found.reason)
        return Manuscript(chapter, known, texts, advice, plan, found.key)

    def _text(self, name: str, style: Style, ground: Mapping[str, str], write: Write) -> str:
        found = self._recaller(style)(name, ground, write)
        text = found.content.decode()
        self._note(name, text, found.reason)
        return text

    def _note(self, name: str, text: str, reason: str) -> None:
        self.reasons[name] = reason
        before = self.memory.compare(name, text)
        if before is None:
            self.new.add(name)
        elif not before:
            self.changed.add(name)

    def _recaller(self, style: Style) -> Recall:
        rows, common = Rows(style), {"the program": self._program, "the design's templates": templates(style.design)}

        def recall(subject: str, ground: Mapping[str, str], write: Write) -> Recalled:
            return self.memory.recall(subject, {**common, **ground}, rows, lambda note: write(watched(style, note)))

        return recall

    def _plan(self, chapter: Manuscript) -> ChapterPlan:
        """Unpacked once a build."""
        if chapter.key not in self._plans:
            self._plans[chapter.key] = chapter.plan
        return self._plans[chapter.key]

    def _matter(self, book: BookDefinition, made: Sequence[Manuscript], style: Style) -> Matter:
        from engraver.manuscript.book_matter import book_matter

        plans = [self._plan(chapter) for chapter in made]
        return book_matter(book, plans, style)


def _ground(book: BookDefinition, made: Sequence[Manuscript]) -> dict[str, str]:
    """All that the pages around the chapters are made from, beside the style."""
    chapters = {f'chapter "{chapter.name}"': chapter.key for chapter in made}
    order = repr([chapter.name for chapter in made])
    return {"what book.yaml says": _said(book), "the order of the chapters": order, **chapters}


def _said(book: BookDefinition) -> str:
    own = {field.name for field in fields(book)} - {"folder", "style", "chapters", "parts", "cover"}
    parts = [(part.title, part.text, [chapter.name for chapter in part.chapters]) for part in book.parts]
    return repr([*((name, getattr(book, name)) for name in sorted(own)), parts, book.cover.name])
