"""The press: sources by name in, engraved sheaves out; it keeps what LilyPond said of each, and tells how far it is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from engraver.binding import Sheaf, load_binder
from engraver.engraving import Engraved, Job, Workshop
from engraver.errors import EngravingError, Problem
from engraver.making.bindery import Bindery
from engraver.making.clock import Clock
from engraver.manuscript.collation import part_name
from engraver.memory import Memory

Progress = Callable[[str, int, int], None]  # what is being done, how much of it, of how much
Source = tuple[str, Sequence[str]]  # its name and texts
Likely = tuple[str, str]  # a name and a text that is not sure


def silent(what: str, done: int, total: int) -> None:
    """Progress for who does not watch."""


class Press:
    """Engraves for one book. ``results`` holds everything that was engraved, under the names of the sources.

    A source is one text, or several that are engraved side by side and follow one another in the book.
    With a ``memory`` pages are read once, and a book that is there already is not bound again.
    """

    def __init__(self, shop: Workshop, clock: Clock, progress: Progress = silent, memory: Memory | None = None) -> None:
        self.clock = clock
        self.bindery = Bindery(memory)
        self._shop, self._progress = shop, progress
        self._came: list[Engraved] = []  # what has come and is not made ready for binding
        self._has_time = False
        self._fresh: set[str] = set()  # texts that were engraved now
        self.results: dict[str, list[Engraved]] = {}

    def engrave(self, sources: Iterable[Source], ahead: Iterable[Likely] = ()) -> dict[str, list[Engraved]]:
        """The results of each source, given by name and texts, failures too. They may still be in the making.

        ``ahead``: texts that will perhaps be asked for next. They are engraved beside the others, and tell nothing.
        """
        names: list[str] = []  # of the source of each job
        begun = done = 0

        def jobs() -> Iterator[Job]:
            nonlocal begun
            for name, job in _jobs(sources):
                begun += 1
                names.append(name)
                yield job
            for name, text in ahead:
                begun += 1
                yield Job(name, text)

        def tick(result: Engraved) -> None:
            nonlocal done
            done += 1
            if result.fresh:
                self._fresh.add(result.job.text)
            self._came.append(result)
            if self._has_time:
                self._prepare()
            self._progress("engraving", done, begun)

        with self.clock("engraving"):
            results = self._shop.engrave(jobs(), tick)
        made = self._by_source(names, results)
        self.results |= made
        return made

    def _by_source(self, names: Sequence[str], results: Sequence[Engraved]) -> dict[str, list[Engraved]]:
        made: dict[str, list[Engraved]] = {}
        for name, result in zip(names, results, strict=False):  # those engraved ahead come last
            fresh = result.job.text in self._fresh
            made.setdefault(name, []).append(replace(result, fresh=fresh))
        return made

    def warm_up(self) -> None:
        """Something will have to be engraved: have LilyPond started by then. Does not wait for it."""
        self._shop.warm_up()

    def prepare(self) -> None:
        """All texts are there, LilyPond is at work: have ready what binding needs of each page as soon as it comes."""
        self._has_time = True
        with self.clock("binding"):
            load_binder()
        self._prepare()

    def _prepare(self) -> None:
        with self.clock("binding"):
            while self._came:
                result = self._came.pop()
                if result.pdf is not None:
                    self.bindery.prepare(result.job.name, result.pdf)

    def sheaf(self, name: str, text: str) -> Sheaf:
        """The pages of one source. Raises EngravingError if LilyPond refuses it."""
        return self.opened(self.engrave([(name, [text])]))[name][0]

    @property
    def fresh(self) -> tuple[str, ...]:
        """The names of what was engraved now and not earlier."""
        return tuple(name for name, parts in self.results.items() if any(part.fresh for part in parts))

    def opened(self, made: Mapping[str, Sequence[Engraved]]) -> dict[str, tuple[Sheaf, ...]]:
        with self.clock("binding"):
            return {name: tuple(self._opened(name, parts)) for name, parts in made.items()}

    def _opened(self, name: str, parts: Sequence[Engraved]) -> Iterator[Sheaf]:
        for part, result in enumerate(parts):
            yield self.bindery.opened(part_name(name, part), pdf(result))


def _jobs(sources: Iterable[Source]) -> Iterator[tuple[str, Job]]:
    """Those of each source, beside its name."""
    for name, texts in sources:
        for part, text in enumerate(texts):
            yield name, Job(part_name(name, part), text)


def pdf(result: Engraved) -> Path:
    """Raises EngravingError if there is none."""
    if result.pdf is None:
        raise EngravingError(Problem(None, f"{result.job.name} could not be engraved: {result.failure}"))
    return result.pdf
