"""The runners of a workshop: started when first wanted, kept between jobs, replaced when they die.

Warm ones if a trial shows that forking works here, else plain ones.
"""

from __future__ import annotations

import shutil
import threading
from collections.abc import Callable, Sequence
from itertools import count
from pathlib import Path

from engraver.engraving.engine import Engine
from engraver.engraving.plain import PlainRunner
from engraver.engraving.run import PDF, SOURCE, Exit, Limits, Runner, RunnerDied, ran_out_of_memory, read_log
from engraver.engraving.warm import WarmRunner

_TRIAL = '\\version "2.24.0"\n\\markup "."\n'


class Crew:
    """Runs texts in new folders below ``workplace``; may be used by several threads at once."""

    def __init__(self, engine: Engine, include: Sequence[Path], limits: Limits, workplace: Path, warm: bool) -> None:
        self._plain: Callable[[], Runner] = lambda: PlainRunner(engine, include, limits)
        self._warm: Callable[[], Runner] = lambda: WarmRunner(engine, include, limits, workplace)
        self._workplace = workplace
        self._numbers = count(1)
        self._lock = threading.Lock()
        self._idle: list[Runner] = []
        self._all: list[Runner] = []
        self._stopped = False
        self._ground = ""
        self.is_warm = warm

    def stand_on(self, ground: str) -> None:
        """Lets go of runners that have read ahead under another ``ground``. Not while a thread runs anything."""
        if ground != self._ground:
            self.close()
        self._ground = ground

    def run(self, text: str) -> tuple[Path, Exit]:
        """The folder where ``text`` was run, which is the caller's to remove, and how it ended.

        Raises RunnerDied if the runner died twice or the crew was interrupted.
        """
        folder, ended = self._run_surely(text, collect=False)
        if self.is_warm and ended.is_bad and ran_out_of_memory(read_log(folder)):
            shutil.rmtree(folder)
            return self._run_surely(text, collect=True)
        return folder, ended

    def _run_surely(self, text: str, *, collect: bool) -> tuple[Path, Exit]:
        try:
            return self._attempt(text, collect)
        except RunnerDied:
            if self._stopped:
                raise
            return self._attempt(text, collect)

    def _attempt(self, text: str, collect: bool) -> tuple[Path, Exit]:
        runner = self._take()
        try:
            ended = self._run(runner, text, collect)
        except BaseException:
            self._drop(runner)
            raise
        with self._lock:
            self._idle.append(runner)
        return ended

    def _run(self, runner: Runner, text: str, collect: bool) -> tuple[Path, Exit]:
        folder = self._workplace / str(next(self._numbers))
        folder.mkdir()
        (folder / SOURCE).write_bytes(text.encode("utf-8", "surrogatepass"))
        return folder, runner.run(folder, collect=collect)

    def _take(self) -> Runner:
        with self._lock:
            if self._idle and not self._stopped:
                return self._idle.pop()
        return self._tried() if self.is_warm else self._hire(self._plain)

    def _tried(self) -> Runner:
        """A new warm runner that has shown what it can; if it cannot, a plain one, now and ever after."""
        runner = self._hire(self._warm)
        try:
            folder, ended = self._run(runner, _TRIAL, collect=True)
            proved = not ended.is_bad and (folder / PDF).exists()
            shutil.rmtree(folder)
            if proved:
                return runner
        except RunnerDied:
            if self._stopped:
                raise
        self._drop(runner)
        self.is_warm = False
        return self._hire(self._plain)

    def _hire(self, new: Callable[[], Runner]) -> Runner:
        with self._lock:
            if self._stopped:
                raise RunnerDied("stopped")
            runner = new()
            self._all.append(runner)
        return runner

    def _drop(self, runner: Runner) -> None:
        with self._lock:
            self._all.remove(runner)
        runner.close()

    def interrupt(self) -> None:
        """Kills all runs, from any thread. Nothing can be run until ``close``."""
        with self._lock:
            self._stopped = True
            for runner in self._all:
                runner.interrupt()

    def close(self) -> None:
        """Ends all processes, while no thread runs anything. New ones are started when wanted again."""
        self.interrupt()
        with self._lock:
            for runner in self._all:
                runner.close()
            self._all, self._idle, self._stopped = [], [], False
