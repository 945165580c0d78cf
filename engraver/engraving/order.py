"""An order in work: jobs as they come in, which of them waits longest to be done, results in the order of the jobs."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import replace
from heapq import heappop, heappush
from queue import SimpleQueue
from threading import Lock

from engraver.engraving.job import Engraved, Job

Progress = Callable[[Engraved], None]


class Order:
    """Used by the thread that takes the jobs in; only ``longest`` is called from those that do them."""

    def __init__(self, progress: Progress | None) -> None:
        self._progress = progress
        self._running = 0
        self._done: SimpleQueue[Future[tuple[str, Engraved]]] = SimpleQueue()
        self._jobs: list[Job] = []
        self._of_key: dict[str, list[int]] = {}
        self._results: dict[int, Engraved] = {}
        self._made: dict[str, Engraved] = {}
        self._waiting: list[tuple[float, int, str, Job]] = []
        self._lock = Lock()

    def add(self, key: str, job: Job) -> bool:
        """Whether it has to be seen to: a text that was there before gets the result of that one."""
        self._jobs.append(job)
        self._of_key.setdefault(key, []).append(len(self._jobs) - 1)
        if key in self._made:
            self._hand_out(key)
        return len(self._of_key[key]) == 1

    def wait(self, cost: float, key: str, job: Job) -> None:
        with self._lock:
            heappush(self._waiting, (-cost, len(self._waiting), key, job))

    def longest(self) -> tuple[str, Job]:
        with self._lock:
            _, _, key, job = heappop(self._waiting)
        return key, job

    def run(self, making: Future[tuple[str, Engraved]]) -> None:
        """One of the jobs that wait is being made."""
        self._running += 1
        making.add_done_callback(self._done.put)

    def deliver_ready(self) -> None:
        while not self._done.empty():
            self._deliver_next()

    def deliver_all(self) -> None:
        while self._running:
            self._deliver_next()

    def _deliver_next(self) -> None:
        made = self._done.get()
        self._running -= 1
        self.deliver(*made.result())

    def deliver(self, key: str, engraved: Engraved) -> None:
        self._made[key] = engraved
        self._hand_out(key)

    def results(self) -> list[Engraved]:
        return [self._results[index] for index in range(len(self._jobs))]

    def _hand_out(self, key: str) -> None:
        """To every job of this text that has no result yet; only the first of them was engraved for."""
        engraved, indexes = self._made[key], self._of_key[key]
        for index in indexes:
            if index not in self._results:
                fresh = engraved.fresh and index == indexes[0]
                self._results[index] = replace(engraved, job=self._jobs[index], fresh=fresh)
                if self._progress:
                    self._progress(self._results[index])
