"""LilyPonds that have started once and fork a child for each job (`warm.scm` is their end of the line).

One process starts and reads ahead; it forks the workers, which serve a line each.
"""

from __future__ import annotations

import os
import select
import signal
import subprocess
import threading
import time
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from importlib import resources
from pathlib import Path

from engraver.engraving.engine import Engine
from engraver.engraving.run import Exit, Limits, RunnerDied, command, environment, kill_group

_START = 60  # seconds a worker may take to start; it needs a third of one
_GRACE = 5  # seconds the child's own alarm may be late


class _TooLate(RunnerDied):
    """Nothing was heard in time."""


class _Line:
    """The pipes to one worker: what it is told, what it says, and one that ends when it and its children are gone."""

    def __init__(self) -> None:
        self._told, self._tell = os.pipe()
        self._hear, self._said = os.pipe()
        self._presence, self._present = os.pipe()
        self._heard = b""

    @property
    def far_ends(self) -> tuple[int, int, int]:
        """Those of the worker, which it reads from, writes to and holds."""
        return self._told, self._said, self._present

    def give_away(self) -> None:
        """Once the other side has its ends."""
        for end in self.far_ends:
            os.close(end)

    def send(self, words: str) -> None:
        try:
            os.write(self._tell, words.encode("ascii"))
        except OSError as gone:
            raise RunnerDied from gone

    def expect(self, word: str, deadline: float) -> list[str]:
        """What follows the word. Raises RunnerDied if another one comes, or none."""
        first, *rest = self._next(deadline).split() or [""]
        if first != word:
            raise RunnerDied(f"said {first!r} for {word!r}")
        return rest

    @property
    def has_news(self) -> bool:
        return bool(select.select([self._hear], [], [], 0)[0])

    def close(self, patience: float) -> None:
        """When the worker is gone, or after some seconds."""
        os.close(self._tell)
        select.select([self._presence], [], [], patience)
        os.close(self._hear)
        os.close(self._presence)

    def _next(self, deadline: float) -> str:
        while b"\n" not in self._heard:
            self._heard += self._listen(deadline)
        line, _, self._heard = self._heard.partition(b"\n")
        return line.decode("ascii", "replace")

    def _listen(self, deadline: float) -> bytes:
        ready, _, _ = select.select([self._hear], [], [], max(0, deadline - time.monotonic()))
        if not ready:
            raise _TooLate
        heard = os.read(self._hear, 4096)
        if not heard:
            raise RunnerDied("fell silent")
        return heard


class _Parent:
    """The process that starts, and stays until its last worker is let go."""

    def __init__(self, engine: Engine, include: Sequence[Path], workplace: Path, lines: Sequence[_Line]) -> None:
        ends = [line.far_ends for line in lines]
        told = " ".join(f"({' '.join(map(str, line))})" for line in ends)
        # The program goes along as text: a path inside Scheme would have to be quoted. The file named is never read.
        serve = resources.files(__package__).joinpath("warm.scm").read_text("ascii")
        self._process = subprocess.Popen(
            [*command(engine, include), "-e", f"(begin (define lines '({told})) {serve})", "none.ly"],
            cwd=workplace,
            env=environment(),
            stdin=subprocess.PIPE,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
            pass_fds=[end for line in ends for end in line],
        )
        self._workers = len(lines)
        self._lock = threading.Lock()

    @property
    def process(self) -> int:
        return self._process.pid

    def interrupt(self) -> None:
        """Kills it, and workers that are not yet born."""
        with self._lock:
            if self._process.returncode is None:
                kill_group(self._process.pid)

    def let_go(self) -> None:
        """Of one worker; of the process after the last, which then counts what time they all have used."""
        with self._lock:
            self._workers -= 1
            if self._workers:
                return
            assert self._process.stdin
            self._process.stdin.close()
            try:
                self._process.wait(_GRACE)
            except subprocess.TimeoutExpired:
                kill_group(self._process.pid)
                self._process.wait()


class WarmRunner:
    """A worker. Jobs must lie in folders right below the workplace: only their names go down the line."""

    def __init__(self, parent: _Parent, line: _Line, limits: Limits, workplace: Path) -> None:
        self._parent, self._line = parent, line
        self._limits = limits
        self._workplace = workplace
        self._lock = threading.Lock()
        self.leader = 0  # of the group of its processes; 0 until it is heard of
        self._stopped = False

    @property
    def parent(self) -> int:
        """The process that forked it."""
        return self._parent.process

    def run(self, folder: Path, *, collect: bool) -> Exit:
        assert folder.parent == self._workplace
        if not self.leader:
            self._greet()
        limits = self._limits
        memory = "collect" if collect else "grow"
        self._line.send(f"{folder.name} {memory} {limits.seconds} {limits.patience} {limits.mebibytes}\n")
        deadline = time.monotonic() + self._limits.patience + _GRACE
        child = int(self._line.expect("start", deadline)[0])
        try:
            return self._ended(deadline)
        except _TooLate:
            with suppress(ProcessLookupError):  # it has just ended
                os.kill(child, signal.SIGKILL)
            return replace(self._ended(time.monotonic() + _GRACE), out_of_patience=True)

    def _greet(self) -> None:
        leader = int(self._line.expect("ready", time.monotonic() + _START)[0])
        with self._lock:
            self.leader = leader
            if self._stopped:
                kill_group(leader)

    def _ended(self, deadline: float) -> Exit:
        how, number, milliseconds = self._line.expect("done", deadline)
        code, killed = (int(number), 0) if how == "exit" else (0, int(number))
        return Exit(code, killed, int(milliseconds) / 1000)

    def interrupt(self) -> None:
        with self._lock:
            self._stopped = True
            if self.leader:
                kill_group(self.leader)
            else:
                self._parent.interrupt()

    def close(self) -> None:
        if not self.leader and self._line.has_news:
            with suppress(RunnerDied):
                self._greet()
        self.interrupt()
        self._line.close(_GRACE)
        self._parent.let_go()


def warm_runners(
    engine: Engine, include: Sequence[Path], limits: Limits, workplace: Path, workers: int
) -> list[WarmRunner]:
    """So many that share one start, which goes on when this has returned. Raises OSError if nothing starts."""
    lines = [_Line() for _ in range(workers)]
    try:
        parent = _Parent(engine, include, workplace, lines)
    except OSError:
        for line in lines:
            line.close(0)
        raise
    finally:
        for line in lines:
            line.give_away()
    return [WarmRunner(parent, line, limits, workplace) for line in lines]
