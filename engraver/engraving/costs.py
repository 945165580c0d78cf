"""What jobs of a name cost last time, to begin the longest first. A guess only: no result depends on it."""

from __future__ import annotations

import contextlib
import json
import os
import tempfile
from collections.abc import Sequence
from pathlib import Path

from engraver.engraving.job import Engraved, Job

_REMEMBERED = 5000  # names


class Costs:
    def __init__(self, path: Path) -> None:
        self._path = path
        self._seconds = _read(path)
        self._learnt = False

    def longest_first(self, jobs: Sequence[Job]) -> list[Job]:
        """By what the name cost last time; names never seen by their length, at the rate of those seen."""
        known = [job for job in jobs if job.name in self._seconds]
        length = sum(len(job.text) for job in known)
        rate = sum(self._seconds[job.name] for job in known) / length if length else 1.0
        return sorted(jobs, key=lambda job: self._seconds.get(job.name, rate * len(job.text)), reverse=True)

    def learn(self, engraved: Engraved) -> None:
        self._learnt = True
        self._seconds.pop(engraved.job.name, None)  # so that it counts as the newest
        self._seconds[engraved.job.name] = engraved.seconds

    def save(self) -> None:
        if not self._learnt:
            return
        kept = dict(list(self._seconds.items())[-_REMEMBERED:])
        with contextlib.suppress(OSError):
            descriptor, name = tempfile.mkstemp(dir=self._path.parent, prefix="costs-")
            with os.fdopen(descriptor, "w") as file:
                json.dump(kept, file)
            Path(name).replace(self._path)


def _read(path: Path) -> dict[str, float]:
    try:
        return {str(name): float(seconds) for name, seconds in json.loads(path.read_text("utf-8")).items()}
    except (OSError, ValueError, AttributeError, TypeError):
        return {}
