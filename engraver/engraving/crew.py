"""The runners of a workshop: started when first wanted, kept between jobs, replaced when they die.

Warm ones as long as forking works here, else plain ones.
"""

from __future__ import annotations

import shutil
import threading
from collections.abc import Sequence
from itertools import count
from pathlib import Path

from engraver.engraving.engine import Engine
from engraver.engraving.plain import PlainRunner
from engraver.engraving.run import PDF, SOURCE, Exit, Limits, Runner, RunnerDied, ran_out_of_memory, read_log
from engraver.engraving.warm import WarmRunner, warm_runners

_TRIAL = '\\version "2.24.0"\n\\markup "."\n'


class Crew:
    """Runs texts in new folders below ``workplace``; may be used by as many threads at once as it has ``workers``."""

    def __init__(
        self, engine: Engine, include: Sequence[Path], limits: Limits, workplace: Path, *, workers: int, warm: bool
    ) -> None:
        self._engine, self._include, self._limits = engine, include, limits
        self._workplace, self._workers = workplace, workers
        self._numbers = count(1)
        self._lock, self._trial = threading.Lock(), threading.Lock()
        self._idle: list[Runner] = []
        self._all: list[Runner] = []
        self._stopped = False
        self._ground = ""
        self._proved = False  # a warm runner has made pages
        self.is_warm = warm

    def stand_on(self, ground: str) -> None:
        """Lets go of runners that have read ahead under another ``ground``. Not while a thread runs anything."""
        if ground != self._ground:
            self.close()
        self._ground = ground

    def warm_up(self) -> None:
        """Warm runners begin to start, so that a job does not have to wait for them."""
        with self._lock:
            if self.is_warm and not self._all:
                self._hire()

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
        """What goes wrong with a warm runner that nothing is known of may go well with a plain one."""
        unproved = self.is_warm and not self._proved
        try:
            folder, ended = self._attempt(text, collect)
        except RunnerDied:
            if self._stopped:
                raise
            if unproved:
                self._try_forking()
            return self._attempt(text, collect)
        if _went_well(folder, ended):
            self._proved |= self.is_warm
        elif unproved and not self._try_forking():
            shutil.rmtree(folder)
            return self._attempt(text, collect)
        return folder, ended

    def _try_forking(self) -> bool:
        """Whether it works here. If it does not, plain runners are taken, now and ever after."""
        with self._trial:
            if self.is_warm and not self._proved:
                self._proved = self.is_warm = self._trial_goes_well()
            return self.is_warm

    def _trial_goes_well(self) -> bool:
        try:
            folder, ended = self._attempt(_TRIAL, collect=True)
        except RunnerDied:
            if self._stopped:
                raise
            return False
        well = _went_well(folder, ended)
        shutil.rmtree(folder)
        return well

    def _attempt(self, text: str, collect: bool) -> tuple[Path, Exit]:
        runner = self._take()
        try:
            folder_and_exit = self._run(runner, text, collect)
        except BaseException:
            self._drop(runner)
            raise
        with self._lock:
            self._idle.append(runner)
        return folder_and_exit

    def _run(self, runner: Runner, text: str, collect: bool) -> tuple[Path, Exit]:
        folder = self._workplace / str(next(self._numbers))
        folder.mkdir()
        (folder / SOURCE).write_bytes(text.encode("utf-8", "surrogatepass"))
        return folder, runner.run(folder, collect=collect)

    def _take(self) -> Runner:
        with self._lock:
            if self._stopped:
                raise RunnerDied("stopped")
            runner = self._wanted() or self._hire()
            self._idle.remove(runner)
            return runner

    def _wanted(self) -> Runner | None:
        """One that is idle, and warm or plain as runners are to be now."""
        return next((runner for runner in self._idle if isinstance(runner, WarmRunner) == self.is_warm), None)

    def _hire(self) -> Runner:
        """One of the new: a plain runner, or as many warm ones as are missing, which share a start."""
        new: Sequence[Runner]
        if self.is_warm:
            missing = max(1, self._workers - len(self._all))
            new = warm_runners(self._engine, self._include, self._limits, self._workplace, missing)
        else:
            new = [PlainRunner(self._engine, self._include, self._limits)]
        self._all += new
        self._idle += new
        return new[0]

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


def _went_well(folder: Path, ended: Exit) -> bool:
    return not ended.is_bad and (folder / PDF).exists()
