"""What goes into engraving and what comes out: a source text; its files, what LilyPond said and what it cost."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from pathlib import Path


class Severity(Enum):
    WARNING = "warning"
    ERROR = "error"


@dataclass(frozen=True, slots=True)
class Job:
    """One LilyPond source. ``name`` is for messages and for guessing the cost; the result depends on ``text`` alone."""

    name: str
    text: str


@dataclass(frozen=True, slots=True)
class Complaint:
    """What LilyPond said. ``file`` is empty where ``line`` is a line of the job's own text.

    Lines and columns count from 1 and are 0 where LilyPond named none.
    """

    severity: Severity
    line: int
    column: int
    message: str
    file: str = ""

    def __str__(self) -> str:
        place = ":".join(part for part in (self.file, *(str(n) for n in (self.line, self.column) if n)) if part)
        return f"{place}: {self.severity.value}: {self.message}" if place else f"{self.severity.value}: {self.message}"


@dataclass(frozen=True, slots=True)
class Engraved:
    """The result of a job. ``files`` are all files the run wrote beside its source, ordered by name; read only.

    ``seconds`` is processor time of the run that made the files, now or earlier. ``fresh``: that run was made for this
    very job, now. ``failure`` says in one line why there is no PDF, and is empty if there is one.
    """

    job: Job
    files: tuple[Path, ...]
    pdf: Path | None
    complaints: tuple[Complaint, ...]
    seconds: float
    fresh: bool
    failure: str = ""

    def with_suffix(self, suffix: str) -> tuple[Path, ...]:
        """The files whose name ends so, ``.midi`` for one."""
        return tuple(path for path in self.files if path.name.endswith(suffix))
