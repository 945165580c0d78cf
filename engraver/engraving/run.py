"""One run of LilyPond on one source in a folder of its own, and how it ended. Runners differ in how the process comes
about: `plain` starts one a job, `warm` forks it from one that has started already.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from engraver.engraving.engine import Engine

SOURCE = "source.ly"  # the same for all jobs: neither log nor outputs tell where or for whom it ran
LOG = "source.log"
PDF = "source.pdf"
# A level that keeps warnings; no links back into the source; the back end that needs no Ghostscript.
OPTIONS = ("-lWARNING", "-dno-point-and-click", "-dbackend=cairo")

# Memory in few large pieces costs the system less. The heap of Scheme is of this size from the beginning (bytes; it is
# only an address until something is put there); the C library asks for large pages where they are given on request.
# Sources: the GC library's README.environment; the GNU C library's manual, "Memory Allocation Tunables".
_MEMORY = {"GC_INITIAL_HEAP_SIZE": str(256 * 2**20), "GLIBC_TUNABLES": "glibc.malloc.hugetlb=1"}

_OUT_OF_MEMORY = ("GC Warning: Out of Memory!", "terminate called after throwing an instance of 'std::bad_alloc'")


@dataclass(frozen=True, slots=True)
class Limits:
    """For one job. ``seconds`` is processor time; a job that sleeps is stopped after thrice that, ``patience``."""

    seconds: int = 120
    mebibytes: int = 2048

    @property
    def patience(self) -> int:
        return 3 * self.seconds


@dataclass(frozen=True, slots=True)
class Exit:
    """How a run ended: exit code or, if it was killed, the signal. ``seconds`` of processor time."""

    code: int
    signal: int
    seconds: float
    out_of_patience: bool = False

    @property
    def is_bad(self) -> bool:
        return self.code != 0 or self.signal != 0

    def failure(self, limits: Limits, log: str) -> str:
        """Why the run is worth nothing, or "" if it ended well."""
        if self.is_bad and ran_out_of_memory(log):
            return f"needed more than {limits.mebibytes} MiB of memory and was stopped"
        if self.out_of_patience or self.signal == signal.SIGALRM or self._used_up(limits):
            return f"took longer than {limits.seconds} s and was stopped"
        if self.signal:
            return f"LilyPond was killed by signal {self.signal} ({signal.strsignal(self.signal)})"
        return f"LilyPond ended with exit code {self.code}" if self.code else ""

    def _used_up(self, limits: Limits) -> bool:
        # Not SIGXCPU, which the garbage collector takes for itself. The kernel counts in ticks: not quite our seconds.
        return self.signal == signal.SIGKILL and self.seconds >= 0.8 * limits.seconds


def ran_out_of_memory(log: str) -> bool:
    """By the words of the garbage collector and of C++: there is no signal or exit code of its own for it."""
    return any(line.startswith(_OUT_OF_MEMORY) for line in log.split("\n"))


def read_log(folder: Path) -> str:
    return (folder / LOG).read_text("utf-8", "replace")


class RunnerDied(Exception):
    """The process that starts the runs is gone; its job may be tried again with another one."""


class Runner(Protocol):
    def run(self, folder: Path, *, collect: bool) -> Exit:
        """Engraves the source in ``folder``; output and log come beside it. May raise RunnerDied, once and for all.

        ``collect``: spare memory rather than time, where the runner has the choice.
        """

    def interrupt(self) -> None:
        """Kills what runs, from any thread; ``run`` then returns or raises RunnerDied, and can run no more."""

    def close(self) -> None:
        """Leaves no process behind. Not while another thread is in ``run``."""


def command(engine: Engine, include: Sequence[Path]) -> list[str]:
    folders = [word for folder in include for word in ("-I", str(folder.absolute()))]
    return [str(engine.path), *OPTIONS, *folders]


def environment() -> dict[str, str]:
    """Ours without what would change pages or messages: language, time zone, other data folders."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("LILYPOND", "GUILE", "LC_"))}
    return _MEMORY | kept | {"LC_ALL": "C.UTF-8", "LANGUAGE": "en", "TZ": "UTC0"}


def kill_group(leader: int) -> None:
    """``leader`` is one we started and have not yet waited for, so the number still is its own."""
    try:
        os.killpg(leader, signal.SIGKILL)
    except (ProcessLookupError, PermissionError):  # macOS: not permitted once the leader is a zombie
        return
