"""The press: sources by name in, engraved sheaves out; it keeps what LilyPond said of each, and tells how far it is."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from time import perf_counter

from engraver import binding
from engraver.binding import Sheaf
from engraver.engraving import Engraved, Job, Workshop
from engraver.errors import EngravingError, Problem

Progress = Callable[[str, int, int], None]  # what is being done, how much of it, of how much


def silent(what: str, done: int, total: int) -> None:
    """Progress for who does not watch."""


class Clock:
    """Adds up where the time goes."""

    def __init__(self) -> None:
        self.times: dict[str, float] = {}

    @contextmanager
    def __call__(self, what: str) -> Iterator[None]:
        start = perf_counter()
        try:
            yield
        finally:
            self.times[what] = self.times.get(what, 0.0) + perf_counter() - start


class Press:
    """Engraves for one book. ``results`` holds everything that was engraved, under the names of the sources."""

    def __init__(self, shop: Workshop, clock: Clock, progress: Progress = silent) -> None:
        self.clock = clock
        self._shop, self._progress = shop, progress
        self.results: dict[str, Engraved] = {}

    def engrave(self, texts: Mapping[str, str]) -> dict[str, Engraved]:
        """The result of each source, failures too."""
        jobs, done = [Job(name, text) for name, text in texts.items()], 0

        def tick(result: Engraved) -> None:
            nonlocal done
            done += 1
            self._progress("engraving", done, len(jobs))

        with self.clock("engraving"):
            made = {result.job.name: result for result in self._shop.engrave(jobs, tick)} if jobs else {}
        self.results |= made
        return made

    def sheaves(self, texts: Mapping[str, str]) -> dict[str, Sheaf]:
        """The pages of each source. Raises EngravingError for the first that LilyPond refuses."""
        return self.opened(self.engrave(texts))

    @property
    def fresh(self) -> tuple[str, ...]:
        """The names of what was engraved now and not earlier."""
        return tuple(name for name, result in self.results.items() if result.fresh)

    def opened(self, made: Mapping[str, Engraved]) -> dict[str, Sheaf]:
        with self.clock("binding"):
            return {name: binding.open_sheaf(pdf(result)) for name, result in made.items()}


def pdf(result: Engraved) -> Path:
    """Raises EngravingError if there is none."""
    if result.pdf is None:
        raise EngravingError(Problem(None, f"{result.job.name} could not be engraved: {result.failure}"))
    return result.pdf
