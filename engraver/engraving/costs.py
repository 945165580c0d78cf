"""What jobs of a name cost last time, to begin the longest first. A guess only: no result depends on it."""

from __future__ import annotations

import contextlib
import json
import os
import tempfile
from pathlib import Path

from engraver.engraving.job import Engraved, Job

_REMEMBERED = 5000  # names


class Costs:
    """By name: processor seconds, and the letters of the text that took them."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._known = _read(path)
        letters = sum(length for _, length in self._known.values())
        self._rate = sum(seconds for seconds, _ in self._known.values()) / letters if letters else 1.0
        self._learnt = False

    def guess(self, job: Job) -> float:
        """What the name cost last time; of a name never seen what its length costs at the rate of all that were."""
        return self._known[job.name][0] if job.name in self._known else len(job.text) * self._rate

    def learn(self, engraved: Engraved) -> None:
        self._learnt = True
        self._known.pop(engraved.job.name, None)  # so that it counts as the newest
        self._known[engraved.job.name] = (engraved.seconds, len(engraved.job.text))

    def save(self) -> None:
        if not self._learnt:
            return
        kept = dict(list(self._known.items())[-_REMEMBERED:])
        with contextlib.suppress(OSError):
            descriptor, name = tempfile.mkstemp(dir=self._path.parent, prefix="costs-")
            with os.fdopen(descriptor, "w") as file:
                json.dump(kept, file)
            Path(name).replace(self._path)


def _read(path: Path) -> dict[str, tuple[float, int]]:
    try:
        rows = json.loads(path.read_text("utf-8")).items()
        return {str(name): (float(seconds), int(letters)) for name, (seconds, letters) in rows}
    except (OSError, ValueError, AttributeError, TypeError):
        return {}
