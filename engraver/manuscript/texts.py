"""The texts of one book, from memory where nothing that makes them has changed, else made now.

In: the book's folder, then its definition, then its pages. Out: its definition and every text that is engraved for it.
A text is made from a groove's file, the rows of the style and of the words that were read for it, the program and the
templates. What only making needs is imported where it is made: a book that did not change is built without it.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from engraver import definition
from engraver.definition import BookDefinition, ChapterDefinition, GrooveDefinition
from engraver.manuscript.book_pages import AroundPage, index_page, pages_around, words_of
from engraver.manuscript.collation import around, outline
from engraver.manuscript.fingerprints import program, templates
from engraver.manuscript.manuscript import Manuscript, Told, stamps, unpacked
from engraver.manuscript.refused import each_chapter
from engraver.memory import Memory, Recalled, pack, unpack
from engraver.style import Rows, Style, watched

Write = Callable[[Style], bytes]
Recall = Callable[[str, Mapping[str, str], Write], Recalled]


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
        self._has_written = False
        self._tell: Callable[[], None] = lambda: None
        self.reasons: dict[str, str] = {}
        self.new: set[str] = set()
        self.changed: set[str] = set()

    def on_writing(self, tell: Callable[[], None]) -> None:
        """``tell`` is called once, before anything is made: now, if something was already, such as a groove."""
        self._tell = tell
        if self._has_written:
            tell()

    @property
    def written(self) -> frozenset[str]:
        return frozenset(name for name, reason in self.reasons.items() if reason)

    def read(self, folder: Path) -> BookDefinition:
        """Raises one DefinitionError with all the problems of all files."""
        return definition.read(folder, self._groove)

    def manuscripts(self, book: BookDefinition) -> Iterator[Manuscript]:
        """Each as soon as it is there. At the end raises one NotationError with all that cannot be written."""
        recall = self._recaller(book.style)
        return each_chapter(book, lambda chapter: self._manuscript(chapter, recall))

    def matter(self, book: BookDefinition, made: Sequence[Manuscript]) -> Mapping[str, str]:
        """The pages around the chapters, but for those that have to know the numbers of the others."""
        pages = pages_around(book, any("answers" in chapter.told for chapter in made))
        return {page.name: self._around(page, book, made) for page in pages}

    def index(
        self,
        book: BookDefinition,
        made: Sequence[Manuscript],
        labels: Mapping[str, str],
        sections: Sequence[str],
        name: str = around("index"),
    ) -> str:
        """``labels``: what the page is called on which an anchor lies; ``sections``: those that share the sheaf."""
        order = [chapter.name for chapter in made]
        self.memory.leave(name, json.dumps([order, list(sections), dict(labels)]))
        return self._around(index_page(book, name, sections, labels), book, made)

    def likely_indexes(self, book: BookDefinition, made: Sequence[Manuscript]) -> Iterator[tuple[str, str]]:
        """Names and texts if every page is called what it was last time: something to begin with."""
        from engraver.manuscript.book_matter import page_text

        for name, note in self.memory.notes.items():
            order, sections, labels = json.loads(note)
            page = index_page(book, name, sections, labels)
            if order == [chapter.name for chapter in made]:
                with suppress(KeyError):  # an exercise that was not there
                    yield name, page_text(page, words_of(book), book.style, unpacked(page, made))

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
            told = {kind: Told.of(value) for kind, value in made.told(style).items()}
            return pack((outline(made.plan, len(texts)), texts, made.plan.warnings, told, pack(made.plan)))

        path = chapter.groove.path
        found = recall(chapter.name, {"its file": self._files[path], "its place": str(path)}, write)
        known, texts, advice, told, plan = unpack(found.content)
        self._note(chapter.name, "".join(texts), found.reason)
        return Manuscript(chapter, known, texts, advice, told, plan)

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
            def make(note: Callable[[str], None]) -> bytes:
                if not self._has_written:
                    self._has_written = True
                    self._tell()
                return write(watched(style, note))

            return self.memory.recall(subject, {**common, **ground}, rows, make)

        return recall

    def _around(self, page: AroundPage, book: BookDefinition, made: Sequence[Manuscript]) -> str:
        words = words_of(book)

        def write(style: Style) -> bytes:
            from engraver.manuscript.book_matter import page_text

            return page_text(page, words, style, unpacked(page, made)).encode()

        ground = {"what book.yaml says": repr((words, page.more)), **stamps(page, made)}
        if page.labels is not None:
            ground["the numbers of the pages"] = repr(page.labels)
        return self._text(page.name, book.style, ground, write)
