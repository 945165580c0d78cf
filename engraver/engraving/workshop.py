"""Jobs to results, on all cores: what is in the store is taken from there, the rest is engraved and put there."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType

from engraver.engraving.costs import Costs
from engraver.engraving.crew import Crew
from engraver.engraving.engine import Engine
from engraver.engraving.job import Complaint, Engraved, Job, Severity
from engraver.engraving.key import Keys
from engraver.engraving.log import parse
from engraver.engraving.order import Order, Progress
from engraver.engraving.pdf import fix_date, is_whole
from engraver.engraving.run import LOG, PDF, SOURCE, Exit, Limits, RunnerDied, ran_out_of_memory, read_log
from engraver.engraving.store import Entry, Store
from engraver.errors import EngravingError, Problem

_ROOM = 2**20  # bytes: more than a chapter's pages take


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
        self._crew = Crew(
            self._engine,
            self._include,
            self._limits,
            self._store.workplace,
            workers=self._workers,
            warm=self._warm,
        )
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        try:
            self._crew.close()
        finally:
            self._costs.save()
            self._store.close()

    def engrave(self, jobs: Iterable[Job], progress: Progress | None = None) -> list[Engraved]:
        """The results in the order of ``jobs``; equal texts are engraved once. A job that fails says so in its result.

        Jobs may still be in the making: each begins as soon as it comes and a process is free, the longest first.
        ``progress`` hears of each result as it comes, in this thread. Raises EngravingError if files cannot be written.
        """
        keys = self._keys()
        self._crew.stand_on(keys.ground)
        order = Order(progress)
        with ThreadPoolExecutor(self._workers) as threads:
            try:
                for job in jobs:
                    key = keys.key(job.text)
                    if order.add(key, job):
                        self._fulfil(key, job, order, threads)
                    order.deliver_ready()
                order.deliver_all()
            except BaseException:  # Ctrl-C too: else the threads would be waited for
                self._crew.interrupt()
                threads.shutdown(cancel_futures=True)
                self._crew.close()
                raise
        return order.results()

    def warm_up(self) -> None:
        """Start the processes that engrave, and return at once: who knows that something will have to be engraved.

        Raises EngravingError if they cannot be started.
        """
        self._crew.stand_on(self.ground)
        with _explained("start LilyPond"):
            self._crew.warm_up()

    @property
    def ground(self) -> str:
        """A hash of all besides its text that a page depends on: engine, options, what lies in the include folders."""
        return self._keys().ground

    def _keys(self) -> Keys:
        with _explained("read what pages include"):
            return Keys(self._engine, self._include)

    @property
    def is_warm(self) -> bool:
        """Forking is wanted, and has not yet failed here."""
        return self._crew.is_warm

    def _fulfil(self, key: str, job: Job, order: Order, threads: ThreadPoolExecutor) -> None:
        """From the store, or from the longest job that waits when a thread is free: often another one than this."""
        with _explained("read the store of engraved pages"):
            entry = self._store.read(key)
        if entry:
            order.deliver(key, _engraved(job, entry, fresh=False))
        else:
            order.wait(self._costs.guess(job), key, job)
            order.run(threads.submit(self._make_longest, order))

    def _make_longest(self, order: Order) -> tuple[str, Engraved]:
        key, job = order.longest()
        engraved = self._make(key, job)
        if not engraved.failure:
            self._costs.learn(engraved)
        return key, engraved

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
        failure = ended.failure(self._limits, log) or _without_pdf(folder / PDF)
        if failure:
            failure += _last_words(log, complaints) if ended.code and not ran_out_of_memory(log) else ""
            return Engraved(job, (), None, complaints, ended.seconds, True, failure)
        for pdf in folder.glob("*.pdf"):
            fix_date(pdf)
        files = tuple(sorted(path for path in folder.iterdir() if path.is_file() and path.name not in (SOURCE, LOG)))
        return _engraved(job, self._store.write(key, folder, Entry(files, complaints, ended.seconds)), fresh=True)


def _without_pdf(pdf: Path) -> str:
    """What to say of a run that ended well and left no whole PDF, or "". Raises OSError where none has room."""
    if is_whole(pdf):
        return ""
    with pdf.open("ab") as torn:  # LilyPond does not tell why it could not write; the system does
        torn.write(bytes(_ROOM))
    return "LilyPond wrote no PDF"


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
