"""Every stage in order: a folder of groove files becomes one bound book.

The only module that knows all stages. A build that fails leaves the last good book in place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from time import perf_counter

from engraver import analysis, binding, chapters, collation, definition, export, lilypond, proof
from engraver.analysis import Analysis
from engraver.binding import Imprint, TrimSize
from engraver.chapters import ChapterPlan
from engraver.chapters.fact_sheet import fact_sheet
from engraver.definition import BackMatter, BookDefinition, ChapterDefinition, GrooveDefinition
from engraver.engraving import Complaint, Engine, Engraved, Job, Workshop
from engraver.errors import DefinitionError, EngravingError, NotationError, Position, Problem, ProofError
from engraver.lilypond import ChapterSource
from engraver.rhythm import Groove, Instrument, Limbs
from engraver.style import Style, Words, words

Progress = Callable[[str, int, int], None]  # what is being done, how much of it, of how much


@dataclass(frozen=True, slots=True)
class Where:
    """Where things come from and go to. ``engine`` names a LilyPond other than the one that came with the program."""

    folder: Path
    out: Path
    engine: str | None = None
    workers: int | None = None

    @property
    def book(self) -> Path:
        return self.out / f"{self.folder.resolve().name}.pdf"

    @property
    def store(self) -> Path:
        return self.out / "store"

    @property
    def midi(self) -> Path:
        return self.out / "midi" / export.slug(self.folder.resolve().name)

    @property
    def sources(self) -> Path:
        return self.out / "source" / self.folder.resolve().name


@dataclass(frozen=True, slots=True)
class Report:
    """What a build did. ``fresh``: names of the sources that were engraved now; times in seconds.

    ``midi``: how many MIDI files the book has beside it.
    """

    book: Path
    pages: int
    chapters: int
    fresh: tuple[str, ...]
    warnings: tuple[Problem, ...]
    times: Mapping[str, float]
    midi: int = 0


@dataclass(frozen=True, slots=True)
class Chapter:
    definition: ChapterDefinition
    plan: ChapterPlan
    source: ChapterSource


class Clock:
    """Adds up where the time goes."""

    def __init__(self) -> None:
        self.times: dict[str, float] = {}

    @contextmanager
    def __call__(self, what: str) -> Iterator[None]:
        start = perf_counter()
        try:
            yield
        finally:
            self.times[what] = self.times.get(what, 0.0) + perf_counter() - start


def silent(what: str, done: int, total: int) -> None:
    """Progress for who does not watch."""


def plan_book(book: BookDefinition) -> tuple[Chapter, ...]:
    """The text of every chapter. Raises one NotationError with all that cannot be written, each at its groove."""
    say = words(book.style.language)
    made, refused = [], []
    for chapter in book.chapters:
        try:
            made.append(plan_chapter(chapter, book, say))
        except NotationError as error:
            refused += [replace(problem, position=chapter.groove.position) for problem in error.problems]
    if refused:
        raise NotationError(refused)
    return tuple(made)


def plan_chapter(chapter: ChapterDefinition, book: BookDefinition, say: Words) -> Chapter:
    groove, facts = read_facts(chapter.groove, book.style)
    plan = chapters.plan(chapter.groove, groove, facts, say)
    return Chapter(chapter, plan, lilypond.chapter(plan, book.style, say))


def read_facts(groove: GrooveDefinition, style: Style) -> tuple[Groove, Analysis]:
    """A groove and what can be said about it; what the author states of its cells wins."""
    made, stated = definition.to_groove(groove), groove.cells
    cells = analysis.StatedCells(stated.length, stated.start - 1) if stated else None
    return made, analysis.analyse(made, cells, _feet(style))


def _feet(style: Style) -> frozenset[Instrument]:
    return frozenset(row.instrument for row in style.kit.rows if row.limbs is Limbs.FEET)


@dataclass(frozen=True, slots=True)
class GrooveFacts:
    """``sheet`` is for a person, ``plain`` for a program."""

    sheet: str
    plain: Mapping[str, object]


def facts(path: Path) -> GrooveFacts:
    """Of one groove file. If it lies in the folder grooves of a book, the book's style.yaml says what the kit is.

    A folder stands for the one groove in it. Raises DefinitionError.
    """
    file = _only_groove(path) if path.is_dir() else path
    home = file.absolute().parent
    style = definition.read_style(home.parent) if home.name == "grooves" else Style()
    groove, found = read_facts(definition.read_groove(file, style), style)
    return GrooveFacts(fact_sheet(groove, found, words(style.language)), analysis.facts_object(groove, found))


def _only_groove(folder: Path) -> Path:
    """Of a book's folder, or of a folder of grooves."""
    home = folder / "grooves" if (folder / "grooves").is_dir() else folder
    files = sorted(home.glob("*.yaml"))
    if len(files) != 1 or files[0].name in ("book.yaml", "style.yaml"):
        hint = f"name one file, such as {files[0]}" if len(files) > 1 else "name the file of a groove"
        raise DefinitionError(Problem(Position(folder, 1, 1), "facts are those of one groove, not of a folder", hint))
    return files[0]


def workshop(where: Where, book: BookDefinition) -> Workshop:
    engine = Engine.find(where.engine)
    include = [lilypond.design_folder(book.style.design), *lilypond.font_folders()]
    return Workshop(engine, include, where.store, workers=where.workers)


def build(where: Where, progress: Progress = silent, midi: export.Click | None = None) -> Report:
    """Read, plan, engrave and bind. Raises an EngraverError that says what was wrong and where.

    ``midi``: write MIDI files too, with this click.
    """
    clock = Clock()
    with clock("reading"):
        book = definition.read(where.folder)
    with clock("writing LilyPond"):
        made = plan_book(book)
        matter = collation.book_matter(book, [chapter.plan for chapter in made])
        jobs = [Job(chapter.plan.name, chapter.source.text) for chapter in made]
        around = dict(collation.matter_sources(book, matter))
        jobs += [Job(name, text) for name, text in around.items()]
    with clock("writing MIDI"):
        files = play_book(made, book, midi) if midi else {}
    with workshop(where, book) as shop:
        with clock("engraving"):
            results = engrave(shop, jobs, progress)
        warnings = complaints(made, results)
        with clock("binding"):
            sheaves = {name: binding.open_sheaf(_pdf(result)) for name, result in results.items()}
            pieces = list(collation.book_pieces(book, matter.plans, around, matter.say))
            labels = collation.labels(pieces, sheaves)
        last = [Job(collation.around("index"), lilypond.index(matter, labels))] if BackMatter.INDEX in book.back else []
        with clock("engraving"):
            results |= engrave(shop, last, progress)
        with clock("binding"):
            sheaves |= {job.name: binding.open_sheaf(_pdf(results[job.name])) for job in last}
            pagination = collation.paginated(pieces, sheaves)
            sheet = Job(
                collation.around("furniture"),
                lilypond.furniture(matter, collation.page_furniture(pagination, pieces, matter.say)),
            )
        with clock("engraving"):
            results |= engrave(shop, [sheet], progress)
        with clock("binding"):
            imprint = Imprint(book.title, book.author, book.language, book.date, book.subtitle)
            trim = TrimSize(book.style.paper.width, book.style.paper.height)
            where.out.mkdir(parents=True, exist_ok=True)
            binding.bind(pagination, where.book, imprint, trim, _pdf(results[sheet.name]))
    if midi:
        with clock("writing MIDI"):
            export.write_files(where.midi, files)
    with clock("laying out sources"):
        lilypond.lay_out(where.sources, {chapter.plan.name: chapter.source.text for chapter in made})
    fresh = tuple(name for name, result in results.items() if result.fresh)
    return Report(where.book, len(pagination.pages), len(made), fresh, tuple(warnings), clock.times, len(files))


def play_book(made: Iterable[Chapter], book: BookDefinition, click: export.Click) -> Mapping[str, bytes]:
    """A MIDI file for every groove and exercise. Raises one NotationError with all that cannot be played."""
    pieces, refused = {}, []
    for chapter in made:
        try:
            pieces[chapter.plan.name] = export.midi_files(chapter.plan, book.style.kit, click)
        except NotationError as error:
            refused += [replace(problem, position=_title_place(chapter)) for problem in error.problems]
    if refused:
        raise NotationError(refused)
    return export.in_folders(pieces)


@dataclass(frozen=True, slots=True)
class Proved:
    """What a proof went through without finding a difference."""

    scores: int
    strokes: int


def verify(where: Where, progress: Progress = silent) -> Proved:
    """Play and read back every score of the book. Raises ProofError with every difference, at the author's line."""
    book = definition.read(where.folder)
    made = plan_book(book)
    with workshop(where, book) as shop:
        results = engrave(shop, [Job(chapter.plan.name, proof.source(chapter.source)) for chapter in made], progress)
    lost = [problem for chapter in made for problem in _lost(chapter, book, results[chapter.plan.name])]
    if lost:
        raise ProofError(lost)
    passages = [passage for chapter in made for passage in chapter.plan.passages]
    return Proved(len(passages), sum(len(passage.groove.strokes) for passage in passages))


def _lost(chapter: Chapter, book: BookDefinition, result: Engraved) -> Iterator[Problem]:
    for difference in proof.compare(chapter.plan, book.style, chapter.source, result):
        yield Problem(_title_place(chapter), str(difference))


# ------------------------------------------------------------------ engraving, and what LilyPond says of it
def engrave(shop: Workshop, jobs: Sequence[Job], progress: Progress) -> dict[str, Engraved]:
    done = 0

    def tick(result: Engraved) -> None:
        nonlocal done
        done += 1
        progress("engraving", done, len(jobs))

    return {result.job.name: result for result in shop.engrave(jobs, tick)} if jobs else {}


def complaints(made: Iterable[Chapter], results: Mapping[str, Engraved]) -> list[Problem]:
    """LilyPond's warnings as problems of the author's files. Raises EngravingError if a source was refused."""
    by_name = {chapter.plan.name: chapter for chapter in made}
    warnings: list[Problem] = []
    refused: list[Problem] = []
    for name, result in results.items():
        found = [_problem(by_name.get(name), result.job, complaint) for complaint in result.complaints]
        if result.failure:
            refused.append(Problem(_title_place(by_name.get(name)), f"{name} could not be engraved: {result.failure}"))
            refused.extend(found)
        else:
            warnings.extend(found)
    if refused:
        raise EngravingError(refused)
    return warnings


def _problem(chapter: Chapter | None, job: Job, complaint: Complaint) -> Problem:
    lines = job.text.split("\n")
    line = lines[complaint.line - 1] if 0 < complaint.line <= len(lines) and not complaint.file else ""
    origin = lilypond.origin(line)
    if chapter is None or origin is None:
        return Problem(_title_place(chapter), f"{job.name}: LilyPond says: {complaint}")
    kit = [i for i in chapter.plan.groove.instruments if _limbs(chapter, i.name) is origin.limbs]
    place = definition.origin(chapter.definition.groove, origin.span, kit)
    bar = f"bar {origin.bar}" if origin.bar else "the pickup"
    return Problem(place, f"{origin.part}, {bar}, {origin.limbs.value}: LilyPond says: {complaint.message}")


def _limbs(chapter: Chapter, instrument: str) -> Limbs:
    return next(row.limbs for row in chapter.source.kit.rows if row.instrument.name == instrument)


def _title_place(chapter: Chapter | None) -> Position | None:
    return chapter.definition.groove.position if chapter else None


def _pdf(result: Engraved) -> Path:
    if result.pdf is None:
        raise EngravingError(Problem(None, f"{result.job.name} could not be engraved: {result.failure}"))
    return result.pdf
