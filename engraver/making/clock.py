"""Where the time of a build goes: stages in, the seconds of each out, on the clock and at work."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from time import perf_counter, thread_time
from typing import NamedTuple


class Spent(NamedTuple):
    """Seconds that passed, and those of them in which the program itself worked. LilyPond may be at work meanwhile."""

    clock: float = 0.0
    work: float = 0.0

    def more(self, other: Spent) -> Spent:
        return Spent(self.clock + other.clock, self.work + other.work)

    def less(self, other: Spent) -> Spent:
        return Spent(self.clock - other.clock, self.work - other.work)


class Clock:
    """Adds up where the time goes. What is timed within something else is taken off that: the sum is the whole."""

    def __init__(self) -> None:
        self.times: dict[str, Spent] = {}
        self._within = [Spent()]

    @contextmanager
    def __call__(self, what: str) -> Iterator[None]:
        start = _now()
        self._within.append(Spent())
        try:
            yield
        finally:
            whole = _now().less(start)
            own = whole.less(self._within.pop())
            self.times[what] = self.times.get(what, Spent()).more(own)
            self._within[-1] = self._within[-1].more(whole)


def _now() -> Spent:
    return Spent(perf_counter(), thread_time())
