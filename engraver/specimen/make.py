"""The specimen: a book's folder in, one PDF out, made by the stages that make a book.

Its grooves lie beside this file, as an author would write them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from importlib import resources
from pathlib import Path

from engraver import analysis, binding, definition, lilypond
from engraver.chapters import Passage
from engraver.chapters.cells import regroup
from engraver.definition import BookDefinition
from engraver.definition.settings import in_force
from engraver.errors import Problem
from engraver.lilypond import Figure
from engraver.making.clock import Clock
from engraver.making.edition import imprint
from engraver.making.press import Press, Progress, silent
from engraver.making.where import Where, workshop
from engraver.manuscript.planning import read_facts
from engraver.style import CellNames, Style

NAME = "the specimen"


@dataclass(frozen=True, slots=True)
class Specimen:
    """The file, and what LilyPond warned of."""

    out: Path
    warnings: tuple[Problem, ...]


def specimen(where: Where, progress: Progress = silent) -> Specimen:
    """Engrave and bind it beside the book. Raises an EngraverError that says what is wrong and where."""
    book = definition.read(where.folder)
    text = lilypond.specimen(tuple(figures(book.style)), tuple(in_force(book.style)), book.style)
    out = where.out / f"{where.name}-specimen.pdf"
    out.parent.mkdir(parents=True, exist_ok=True)
    with workshop(where, book.style) as shop:
        press = Press(shop, Clock(), progress)
        _bind(book, press.sheaf(NAME, text), out)
    said = press.results[NAME][0].complaints
    return Specimen(out, tuple(Problem(None, f"{NAME}: LilyPond says: {complaint}") for complaint in said))


def _bind(book: BookDefinition, sheaf: binding.Sheaf, out: Path) -> None:
    paper, added = book.style.paper, book.style.margins
    strips = binding.Around(added.top, added.bottom, added.inner, added.outer)
    trim = binding.TrimSize(paper.width, paper.height, around=strips)
    binding.bind(binding.paginate([binding.Section(sheaf)]), out, imprint(book), trim)


def figures(style: Style) -> Iterator[Figure]:
    """Each groove as it is written, and the one with cells barred by them too."""
    for number, (name, text) in enumerate(_grooves(), start=1):
        read = definition.parse_groove(text, Path(name), style)
        groove, facts = read_facts(read, style)
        facts = analysis.with_primes(facts) if style.cell_names is CellNames.PRIMES else facts
        title = style.say(f"specimen {_called(name)}")
        yield Figure(title, Passage(f"figure {number}", groove))
        barred = regroup(groove, facts) if read.cells else None
        if barred and facts.cells:
            changed = frozenset(cell.letter for cell in facts.cells.cells if cell.base != cell.letter)
            yield Figure("", replace(barred, name=f"figure {number}, regrouped"), changed)


def _grooves() -> Iterator[tuple[str, str]]:
    for file in sorted(resources.files(__package__).joinpath("grooves").iterdir(), key=lambda file: file.name):
        yield file.name, file.read_text("utf-8")


def _called(name: str) -> str:
    """The words in a file's name, after the number that keeps the files in order."""
    return " ".join(name.removesuffix(".yaml").split("-")[1:])
