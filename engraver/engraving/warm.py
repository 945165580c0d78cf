"""A LilyPond that has started once and forks a child for each job (`warm.scm` is its end of the line)."""

from __future__ import annotations

import os
import select
import signal
import subprocess
import threading
import time
from collections.abc import Sequence
from dataclasses import replace
from importlib import resources
from pathlib import Path

from engraver.engraving.engine import Engine
from engraver.engraving.run import Exit, Limits, RunnerDied, command, environment, kill_group

_START = 60  # seconds a worker may take to start; it needs a third of one
_GRACE = 5  # seconds the child's own alarm may be late


class _TooLate(RunnerDied):
    """Nothing was heard in time."""


class WarmRunner:
    """Jobs must lie in folders right below ``workplace``: only their names go down the line."""

    def __init__(self, engine: Engine, include: Sequence[Path], limits: Limits, workplace: Path) -> None:
        self._limits = limits
        self._workplace = workplace
        self._lock = threading.Lock()
        self._presence, presence = os.pipe()  # held by the process and its children: at its end all are gone
        try:
            self._process = self._start(engine, include, presence)
        finally:
            os.close(presence)
        self._heard = b""
        self._greeted = False

    def _start(self, engine: Engine, include: Sequence[Path], presence: int) -> subprocess.Popen[bytes]:
        # The program goes along as text: a path inside Scheme would have to be quoted. The file named is never read.
        program = "(begin " + resources.files(__package__).joinpath("warm.scm").read_text("ascii") + ")"
        return subprocess.Popen(
            [*command(engine, include), "-e", program, "none.ly"],
            cwd=self._workplace,
            env=environment(),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
            pass_fds=(presence,),
            bufsize=0,
        )

    def run(self, folder: Path, *, collect: bool) -> Exit:
        assert folder.parent == self._workplace
        if not self._greeted:
            self._expect("ready", time.monotonic() + _START)
            self._greeted = True
        limits = self._limits
        memory = "collect" if collect else "grow"
        self._send(f"{folder.name} {memory} {limits.seconds} {limits.patience} {limits.mebibytes}\n")
        deadline = time.monotonic() + self._limits.patience + _GRACE
        child = int(self._expect("start", deadline)[0])
        try:
            return self._ended(deadline)
        except _TooLate:
            os.kill(child, signal.SIGKILL)
            return replace(self._ended(time.monotonic() + _GRACE), out_of_patience=True)

    def _ended(self, deadline: float) -> Exit:
        how, number, milliseconds = self._expect("done", deadline)
        code, killed = (int(number), 0) if how == "exit" else (0, int(number))
        return Exit(code, killed, int(milliseconds) / 1000)

    def _send(self, line: str) -> None:
        assert self._process.stdin
        try:
            self._process.stdin.write(line.encode("ascii"))
        except (OSError, ValueError) as gone:
            raise RunnerDied from gone

    def _expect(self, word: str, deadline: float) -> list[str]:
        first, *rest = self._line(deadline).split() or [""]
        if first != word:
            raise RunnerDied(f"said {first!r} for {word!r}")
        return rest

    def _line(self, deadline: float) -> str:
        while b"\n" not in self._heard:
            self._heard += self._listen(deadline)
        line, _, self._heard = self._heard.partition(b"\n")
        return line.decode("ascii", "replace")

    def _listen(self, deadline: float) -> bytes:
        assert self._process.stdout
        ready, _, _ = select.select([self._process.stdout], [], [], max(0, deadline - time.monotonic()))
        if not ready:
            raise _TooLate
        heard: bytes = self._process.stdout.read(4096)
        if not heard:
            raise RunnerDied("fell silent")
        return heard

    def interrupt(self) -> None:
        with self._lock:
            if self._process.returncode is None:
                kill_group(self._process.pid)

    def close(self) -> None:
        self.interrupt()
        with self._lock:
            self._process.wait()
        select.select([self._presence], [], [], _GRACE)
        os.close(self._presence)
        for pipe in (self._process.stdin, self._process.stdout):
            assert pipe
            pipe.close()
