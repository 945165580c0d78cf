"""Jobs to results, on all cores: what is in the store is taken from there, the rest is engraved and put there."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor, as_completed
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from types import TracebackType

from engraver.engraving.costs import Costs
from engraver.engraving.crew import Crew
from engraver.engraving.engine import Engine
from engraver.engraving.job import Complaint, Engraved, Job, Severity
from engraver.engraving.key import Keys
from engraver.engraving.log import parse
from engraver.engraving.pdf import fix_date, is_whole
from engraver.engraving.run import LOG, PDF, SOURCE, Exit, Limits, RunnerDied, ran_out_of_memory, read_log
from engraver.engraving.store import Entry, Store
from engraver.errors import EngravingError, Problem

Progress = Callable[[Engraved], None]


class Workshop:
    """A store, and processes that stay warm between calls. Use it in a ``with``; its results outlive that.

    ``workers`` run at once, by default one a core. ``warm``: False starts a process for each job.
    """

    def __init__(
        self,
        engine: Engine,
        include: Sequence[Path],
        store: Path,
        *,
        workers: int | None = None,
        limits: Limits | None = None,
        warm: bool = True,
        store_limit: int | None = None,
    ) -> None:
        self._engine, self._include, self._warm = engine, tuple(folder.absolute() for folder in include), warm
        self._workers = workers or _cores()
        self._limits = limits or Limits()
        self._store = Store(store, store_limit)
        self._costs = Costs(store / "costs.json")

    def __enter__(self) -> Workshop:
        with _explained("open the store of engraved pages"):
            self._store.open()
        self._crew = Crew(self._engine, self._include, self._limits, self._store.workplace, self._warm)
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        try:
            self._crew.close()
        finally:
            self._costs.save()
            self._store.close()

    def engrave(self, jobs: Sequence[Job], progress: Progress | None = None) -> list[Engraved]:
        """The results in the order of ``jobs``; equal texts are engraved once. A job that fails says so in its result.

        ``progress`` hears of each result as it comes, in this thread. Raises EngravingError if files cannot be written.
        """
        groups = self._groups(jobs)
        results: dict[int, Engraved] = {}

        def deliver(key: str, engraved: Engraved) -> None:
            for index in groups[key]:
                fresh = engraved.fresh and index == groups[key][0]
                results[index] = replace(engraved, job=jobs[index], fresh=fresh)
                if progress:
                    progress(results[index])

        self._deliver_all({key: jobs[indexes[0]] for key, indexes in groups.items()}, deliver)
        return [results[index] for index in range(len(jobs))]

    @property
    def is_warm(self) -> bool:
        """Forking is wanted, and has not yet failed here."""
        return self._crew.is_warm

    def _groups(self, jobs: Sequence[Job]) -> dict[str, list[int]]:
        """The indexes of the jobs that have one key. Include folders are read anew: they may change between calls."""
        with _explained("read what pages include"):
            keys = Keys(self._engine, self._include)
        groups: dict[str, list[int]] = {}
        for index, job in enumerate(jobs):
            groups.setdefault(keys.key(job.text), []).append(index)
        return groups

    def _deliver_all(self, wanted: Mapping[str, Job], deliver: Callable[[str, Engraved], None]) -> None:
        missing: dict[str, Job] = {}
        for key, job in wanted.items():
            with _explained("read the store of engraved pages"):
                entry = self._store.read(key)
            if entry:
                deliver(key, _engraved(job, entry, fresh=False))
            else:
                missing[key] = job
        if missing:
            self._engrave_all(missing, deliver)

    def _engrave_all(self, missing: Mapping[str, Job], deliver: Callable[[str, Engraved], None]) -> None:
        keys = {job: key for key, job in missing.items()}
        with ThreadPoolExecutor(min(self._workers, len(missing))) as threads:
            try:
                runs = {threads.submit(self._make, keys[job], job): job for job in self._costs.longest_first([*keys])}
                for run in as_completed(runs):
                    engraved = run.result()
                    if not engraved.failure:
                        self._costs.learn(engraved)
                    deliver(keys[runs[run]], engraved)
            except BaseException:  # Ctrl-C too: else the threads would be waited for
                self._crew.interrupt()
                threads.shutdown(cancel_futures=True)
                self._crew.close()
                raise

    def _make(self, key: str, job: Job) -> Engraved:
        with _explained(f"engrave {job.name}"):
            try:
                folder, ended = self._crew.run(job.text)
            except RunnerDied:
                return Engraved(job, (), None, (), 0.0, True, "the LilyPond process died twice")
            try:
                return self._settle(key, job, folder, ended)
            finally:
                shutil.rmtree(folder, ignore_errors=True)

    def _settle(self, key: str, job: Job, folder: Path, ended: Exit) -> Engraved:
        log = read_log(folder)
        complaints = parse(log, source=SOURCE, roots=(*self._include, self._engine.path.parent.parent))
        failure = ended.failure(self._limits, log) or ("" if is_whole(folder / PDF) else "LilyPond wrote no PDF")
        if failure:
            failure += _last_words(log, complaints) if ended.code and not ran_out_of_memory(log) else ""
            return Engraved(job, (), None, complaints, ended.seconds, True, failure)
        for pdf in folder.glob("*.pdf"):
            fix_date(pdf)
        files = tuple(sorted(path for path in folder.iterdir() if path.is_file() and path.name not in (SOURCE, LOG)))
        return _engraved(job, self._store.write(key, folder, Entry(files, complaints, ended.seconds)), fresh=True)


def _cores() -> int:
    return len(os.sched_getaffinity(0)) if sys.platform == "linux" else os.cpu_count() or 1


def _engraved(job: Job, entry: Entry, *, fresh: bool) -> Engraved:
    pdf = next(path for path in entry.files if path.name == PDF)
    return Engraved(job, entry.files, pdf, entry.complaints, entry.seconds, fresh)


def _last_words(log: str, complaints: Sequence[Complaint]) -> str:
    """What a run that failed without an error message said last."""
    said = log.split("\n") if not any(c.severity is Severity.ERROR for c in complaints) else []
    last = next((line.strip() for line in reversed(said) if line.strip() and "failed files" not in line), "")
    return f"; it said last: {last}" if last else ""


@contextmanager
def _explained(aim: str) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        what = f"cannot {aim}: {error.strerror or error}"
        where = f" ({error.filename})" if error.filename else ""
        raise EngravingError(Problem(None, what + where, "see that the disk has room and can be written to")) from error


def engrave(
    jobs: Sequence[Job],
    *,
    engine: Engine,
    include: Sequence[Path],
    store: Path,
    workers: int | None = None,
    progress: Progress | None = None,
) -> list[Engraved]:
    """`Workshop.engrave` for who engraves only once."""
    with Workshop(engine, include, store, workers=workers) as shop:
        return shop.engrave(jobs, progress)
