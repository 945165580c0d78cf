"""A command and all its processes, measured: seconds on the clock and of processors, and the most memory at one time.

Memory is proportional set size (what processes share counts once), read from /proc every quarter of a second, or more
seldom where reading would take over a hundredth of the time. Where there is no /proc it is 0. Source: the Linux manual
pages proc(5), proc_pid_smaps(5).
"""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

_PAUSE = 0.25  # seconds, at least
_SHARE = 0.01  # of the time, at most: the kernel holds a process up while its memory is read


@dataclass(frozen=True, slots=True)
class Measured:
    """``wall`` and ``processor`` in seconds, ``memory`` in bytes; ``said`` is what the command printed."""

    wall: float
    processor: float
    memory: int
    said: str


def run(command: Sequence[str | Path], folder: Path) -> Measured:
    """Runs the command in ``folder`` to its end. Raises RuntimeError, with what it printed last, if it fails."""
    begun = time.perf_counter()
    process = subprocess.Popen(command, cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    watch = _Watch(process.pid)
    assert process.stdout
    said = process.stdout.read()
    _, status, used = os.wait4(process.pid, 0)
    wall = time.perf_counter() - begun
    process.returncode = os.waitstatus_to_exitcode(status)
    memory = watch.stop()
    if process.returncode:
        raise RuntimeError(f"{command[0]} ended with {process.returncode}; it said:\n{said[-4000:]}")
    return Measured(wall, used.ru_utime + used.ru_stime, memory, said)


def build(book: Path, out: Path) -> Measured:
    """The command `engraver build` with its explanations."""
    program = "from engraver.cli import main; raise SystemExit(main())"
    return run([sys.executable, "-c", program, "build", book, "--out", out, "--explain"], Path(__file__).parents[2])


class _Watch(threading.Thread):
    def __init__(self, root: int) -> None:
        super().__init__(daemon=True)
        self._root, self._most, self._over = root, 0, threading.Event()
        self.start()

    def run(self) -> None:
        pause = _PAUSE
        while not self._over.wait(pause):
            begun = time.perf_counter()
            self._most = max(self._most, sum(map(_memory, _with_children(self._root))))
            pause = max(_PAUSE, (time.perf_counter() - begun) / _SHARE)

    def stop(self) -> int:
        self._over.set()
        self.join()
        return self._most


def _with_children(process: int) -> Iterator[int]:
    yield process
    for thread in Path(f"/proc/{process}/task").glob("*/children"):
        try:
            found = thread.read_text().split()
        except OSError:  # it has ended
            continue
        for child in found:
            yield from _with_children(int(child))


def _memory(process: int) -> int:
    try:
        lines = Path(f"/proc/{process}/smaps_rollup").read_text().splitlines()
    except OSError:
        return 0
    return next((int(line.split()[1]) * 1024 for line in lines if line.startswith("Pss:")), 0)
