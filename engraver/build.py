"""Every stage in order: a folder of groove files becomes one bound book.

The only module that knows all stages. A build that fails leaves the last good book in place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from time import perf_counter

from engraver import analysis, binding, chapters, definition, lilypond
from engraver.binding import Bookmark, Imprint, Numbering, Pagination, Section, Sheaf, TrimSize
from engraver.chapters import ChapterPlan
from engraver.definition import BackMatter, BookDefinition, ChapterDefinition, FrontMatter
from engraver.engraving import Complaint, Engine, Engraved, Job, Workshop
from engraver.errors import EngravingError, Position, Problem
from engraver.lilypond import BookWords, ChapterSource, Matter
from engraver.rhythm import Limbs
from engraver.style import Words, words

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
    def sources(self) -> Path:
        return self.out / "source" / self.folder.resolve().name


@dataclass(frozen=True, slots=True)
class Report:
    """What a build did. ``fresh``: names of the sources that were engraved now; times in seconds."""

    book: Path
    pages: int
    chapters: int
    fresh: tuple[str, ...]
    warnings: tuple[Problem, ...]
    times: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Chapter:
    definition: ChapterDefinition
    plan: ChapterPlan
    source: ChapterSource


@dataclass(frozen=True, slots=True)
class Piece:
    """A sheaf of the book to be: how its pages are numbered, what the outline says of it, what its head says."""

    name: str
    numbering: Numbering
    bookmarks: tuple[Bookmark, ...] = ()
    head: tuple[str, str] | None = None
    opener: str = ""  # the chapter number on its first page


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
    say = words(book.style.language)
    return tuple(plan_chapter(chapter, book, say) for chapter in book.chapters)


def plan_chapter(chapter: ChapterDefinition, book: BookDefinition, say: Words) -> Chapter:
    groove = definition.to_groove(chapter.groove)
    stated = chapter.groove.cells
    facts = analysis.analyse(groove, analysis.StatedCells(stated.length, stated.start - 1) if stated else None)
    plan = chapters.plan(chapter.groove, groove, facts, say)
    return Chapter(chapter, plan, lilypond.chapter(plan, book.style, say))


def workshop(where: Where, book: BookDefinition) -> Workshop:
    engine = Engine.find(where.engine)
    include = [lilypond.design_folder(book.style.design), *lilypond.font_folders()]
    return Workshop(engine, include, where.store, workers=where.workers)


def build(where: Where, progress: Progress = silent) -> Report:
    """Read, plan, engrave and bind. Raises an EngraverError that says what was wrong and where."""
    clock = Clock()
    with clock("reading"):
        book = definition.read(where.folder)
    with clock("writing LilyPond"):
        made = plan_book(book)
        matter = book_matter(book, made)
        jobs = [Job(chapter.plan.name, chapter.source.text) for chapter in made]
        around = dict(matter_sources(book, matter))
        jobs += [Job(name, text) for name, text in around.items()]
    with workshop(where, book) as shop:
        with clock("engraving"):
            results = engrave(shop, jobs, progress)
        warnings = complaints(made, results)
        with clock("binding"):
            sheaves = {name: binding.open_sheaf(_pdf(result)) for name, result in results.items()}
            pieces = list(book_pieces(book, made, around, matter.say))
            labels = _labels(pieces, sheaves)
        last = [Job("index", lilypond.index(matter, labels))] if BackMatter.INDEX in book.back else []
        with clock("engraving"):
            results |= engrave(shop, last, progress)
        with clock("binding"):
            sheaves |= {job.name: binding.open_sheaf(_pdf(results[job.name])) for job in last}
            pagination = _paginate(pieces, sheaves)
            sheet = Job("furniture", lilypond.furniture(matter, page_furniture(pagination, pieces, matter.say)))
        with clock("engraving"):
            results |= engrave(shop, [sheet], progress)
        with clock("binding"):
            imprint = Imprint(book.title, book.author, book.language, book.date, book.subtitle)
            trim = TrimSize(book.style.paper.width, book.style.paper.height)
            where.out.mkdir(parents=True, exist_ok=True)
            binding.bind(pagination, where.book, imprint, trim, _pdf(results["furniture"]))
    with clock("laying out sources"):
        lilypond.lay_out(where.sources, {chapter.plan.name: chapter.source.text for chapter in made})
    fresh = tuple(name for name, result in results.items() if result.fresh)
    return Report(where.book, len(pagination.pages), len(made), fresh, tuple(warnings), clock.times)


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
    return Problem(place, f"{origin.part}, bar {origin.bar}, {origin.limbs.value}: LilyPond says: {complaint.message}")


def _limbs(chapter: Chapter, instrument: str) -> Limbs:
    return next(row.limbs for row in chapter.source.kit.rows if row.instrument.name == instrument)


def _title_place(chapter: Chapter | None) -> Position | None:
    return chapter.definition.groove.position if chapter else None


def _pdf(result: Engraved) -> Path:
    if result.pdf is None:
        raise EngravingError(Problem(None, f"{result.job.name} could not be engraved: {result.failure}"))
    return result.pdf


# ------------------------------------------------------------------ the order of the book
def book_matter(book: BookDefinition, made: Sequence[Chapter]) -> Matter:
    plans = tuple(chapter.plan for chapter in made)
    cover = next(plan for plan in plans if plan.name == book.cover.name)
    parts = {part.chapters[0].name: part.title for part in book.parts}
    said = BookWords(book.title, book.subtitle, book.label, book.author, book.publisher, book.rights, book.edition)
    return Matter(said, plans, cover, book.style, words(book.style.language), parts)


def matter_sources(book: BookDefinition, matter: Matter) -> Iterator[tuple[str, lilypond.Source]]:
    """Every page around the chapters but the index, which has to know the pages first."""
    front = [piece.value for piece in book.front]
    asked = lilypond.answers(matter) if BackMatter.ANSWERS in book.back else None
    back = [piece.value for piece in book.back if piece is not BackMatter.ANSWERS or asked]
    yield "title", lilypond.title(matter)
    for piece in book.front:
        match piece:
            case FrontMatter.CAUTIONS:
                yield "cautions", lilypond.cautions(matter)
            case FrontMatter.CONTENTS:
                yield "contents", lilypond.contents(matter, front, back)
            case FrontMatter.HOW_TO:
                yield "how-to", lilypond.how_to(matter)
    if asked:
        yield "answers", asked
    if BackMatter.LOG in book.back:
        yield "log", lilypond.log(matter)


def book_pieces(
    book: BookDefinition, made: Sequence[Chapter], around: Mapping[str, object], say: Words
) -> Iterator[Piece]:
    yield Piece("title", Numbering.ROMAN)
    titles = {"cautions": "cautions", "contents": "contents", "how-to": "how to"}
    for front in book.front:
        name = front.value
        head = ("", say(titles[name])) if front is FrontMatter.HOW_TO else None
        yield Piece(name, Numbering.ROMAN, (Bookmark(say(titles[name])),), head)
    parts = {part.chapters[0].name: part.title for part in book.parts}
    for number, chapter in enumerate(made, start=1):
        yield _chapter_piece(number, chapter.plan, parts.get(chapter.plan.name), bool(parts), say)
    back = {"answers": "answers", "log": "practice log", "index": "index"}
    for piece in book.back:
        if piece.value in around or piece is BackMatter.INDEX:
            head = ("", say(back[piece.value])) if piece is BackMatter.LOG else None
            yield Piece(piece.value, Numbering.ARABIC, (Bookmark(say(back[piece.value])),), head)


def _chapter_piece(number: int, plan: ChapterPlan, part: str | None, in_parts: bool, say: Words) -> Piece:
    level = 1 if in_parts else 0
    marks = [Bookmark(part)] if part else []
    marks.append(Bookmark(f"{number}  {plan.definition.title}", level, f"chapter:{plan.name}"))
    if plan.regrouped:
        marks.append(Bookmark(say("regrouped view"), level + 1, f"chapter:{plan.name}:regrouped"))
    if plan.cards:
        marks.append(Bookmark(say("cell key").capitalize(), level + 1, f"chapter:{plan.name}:cells"))
    if plan.exercises:
        marks.append(Bookmark(say("exercises"), level + 1, f"exercise:{plan.name}:1"))
    head = (say("chapter n", n=number), plan.definition.title)
    return Piece(plan.name, Numbering.ARABIC, tuple(marks), head, str(number))


def _sections(pieces: Iterable[Piece], sheaves: Mapping[str, Sheaf]) -> list[Section]:
    body = False
    sections = []
    for piece in pieces:
        starts_body = piece.numbering is Numbering.ARABIC and not body
        body = body or starts_body
        sections.append(Section(sheaves[piece.name], piece.numbering, starts_body, piece.bookmarks))
    return sections


def _paginate(pieces: Sequence[Piece], sheaves: Mapping[str, Sheaf]) -> Pagination:
    return binding.paginate(_sections(pieces, sheaves))


def _labels(pieces: Sequence[Piece], sheaves: Mapping[str, Sheaf]) -> dict[str, str]:
    """What the pages of the body are called, before the index is there to be counted."""
    pagination = _paginate([piece for piece in pieces if piece.name in sheaves], sheaves)
    return {anchor: pagination.label_of(anchor) for anchor in pagination.anchors}


def page_furniture(pagination: Pagination, pieces: Sequence[Piece], say: Words) -> Iterator[lilypond.PageFurniture]:
    """What stands on each page that depends on its number or its chapter's."""
    for page in pagination.pages:
        piece = pieces[page.section]
        first = page.page == 0
        shows_head = piece.head is not None and not page.is_blank and not (first and piece.opener)
        yield lilypond.PageFurniture(
            folio="" if page.is_blank or piece.name == "title" else page.label,
            recto=page.is_recto,
            head=piece.head if shows_head else None,
            number=piece.opener if first else "",
            fills=tuple(
                lilypond.Filled(spot.kind, pagination.label_of(spot.name), spot.x0, spot.x1, spot.bottom)
                for spot in pagination.spots_on(page)
                if spot.is_place
            ),
        )
