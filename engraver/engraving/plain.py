"""A LilyPond process for each job: slower to start, needs nothing but processes."""

from __future__ import annotations

import os
import subprocess
import threading
from collections.abc import Sequence
from pathlib import Path

from engraver.engraving.engine import Engine
from engraver.engraving.run import LOG, SOURCE, Exit, Limits, RunnerDied, command, environment, kill_group

# The shell sets the limits: code between fork and exec is not safe in a Python process with threads.
_LIMITED = 'ulimit -t "$1"; ulimit -v "$2"; shift 2; exec "$@"'


class PlainRunner:
    def __init__(self, engine: Engine, include: Sequence[Path], limits: Limits) -> None:
        limited = ["sh", "-c", _LIMITED, "sh", str(limits.seconds), str(limits.mebibytes * 1024)]
        self._command = [*limited, *command(engine, include), SOURCE]
        self._limits = limits
        self._process: subprocess.Popen[bytes] | None = None
        self._lock = threading.Lock()
        self._closed = False

    def run(self, folder: Path, *, collect: bool) -> Exit:
        process = self._start(folder)
        impatient = threading.Event()

        def stop() -> None:
            impatient.set()
            kill_group(process.pid)

        timer = threading.Timer(self._limits.patience, stop)
        timer.start()
        try:
            os.waitid(os.P_PID, process.pid, os.WEXITED | os.WNOWAIT)
        finally:
            timer.cancel()
            timer.join()
        return self._reap(process, impatient.is_set())

    def _start(self, folder: Path) -> subprocess.Popen[bytes]:
        with self._lock, (folder / LOG).open("wb") as log:
            if self._closed:
                raise RunnerDied
            self._process = subprocess.Popen(
                self._command,
                cwd=folder,
                env=environment(),
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=log,
                start_new_session=True,
            )
            return self._process

    def _reap(self, process: subprocess.Popen[bytes], impatient: bool) -> Exit:
        with self._lock:
            kill_group(process.pid)
            _, status, used = os.wait4(process.pid, 0)
            process.returncode = code = os.waitstatus_to_exitcode(status)
            self._process = None
        return Exit(max(code, 0), max(-code, 0), used.ru_utime + used.ru_stime, impatient)

    def interrupt(self) -> None:
        with self._lock:
            self._closed = True
            if self._process:
                kill_group(self._process.pid)

    def close(self) -> None:
        self.interrupt()
