"""Editions: what a book is gathered from in, one bound PDF out.

All editions on one paper share the engraved chapters; each has its own order of pages, so its own index and furniture.
Colour, margins, bleed and links are decided while binding: nothing is engraved again for them.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from engraver import binding, definition
from engraver.binding import Around, Imprint, Numbering, Pagination, Section, Sheaf, Tone, TrimSize
from engraver.binding.gutter import gutter
from engraver.definition import BookDefinition
from engraver.definition.editions import EditionDefinition, Ink, plain_edition
from engraver.making.bindery import Printing, Work
from engraver.making.describing import descriptions
from engraver.making.gathering import Gathered
from engraver.making.press import Press
from engraver.making.sampling import sample_pages
from engraver.manuscript import collation
from engraver.manuscript.collation import Sheaves, around
from engraver.manuscript.texts import Texts
from engraver.style import Margins, Style

TONES: dict[Ink, Tone | None] = {Ink.COLOUR: None, Ink.GREY: binding.grey, Ink.BLACK: binding.black}


def bind_edition(gathered: Gathered, edition: EditionDefinition, out: Path, texts: Texts, press: Press) -> Pagination:
    """Number, index, furnish and bind. Raises EngravingError; the file that was there before then stays.

    Raises DefinitionError if a sample is to have pages that are not in the book.
    """
    sheaves = {**gathered.sheaves, **_index(gathered, edition, texts, press)}
    whole = collation.paginated(gathered.pieces, sheaves, edition.recto)
    shown = sample_pages(whole, gathered.pieces, edition) if edition.is_sample else None
    bound = whole if shown is None else _sample(gathered, edition, whole, shown, texts, press)
    sheet = _own("furniture", edition)
    with press.clock("writing LilyPond"):
        text = _furniture(gathered, edition, whole, shown, texts)
    furniture = press.sheaf(sheet, text)
    told = descriptions(gathered) if edition.described else None
    ink = Printing(edition.ink.value, TONES[edition.ink], edition.has_links, edition.is_sample, told)
    trim = _trim(edition, gathered.book.style.margins, len(bound.pages))
    with press.clock("binding"):
        press.bindery.bind(Work(bound, furniture, imprint(gathered.book), trim, ink), out)
    return bound


def imprint(book: BookDefinition) -> Imprint:
    return Imprint(book.title, book.author, book.language, book.date, book.subtitle)


def _trim(edition: EditionDefinition, added: Margins, pages: int) -> TrimSize:
    """The paper, with the margins that the style adds to those of the page design; they mirror where pages do."""
    even = (added.inner + added.outer) / 2
    sides = (added.inner, added.outer) if edition.mirrored else (even, even)
    strips = Around(added.top, added.bottom, *sides)
    shift = gutter(pages) if edition.gutter is None else edition.gutter
    return TrimSize(edition.paper.width, edition.paper.height, shift, edition.bleed, strips)


def _own(sheet: str, edition: EditionDefinition) -> str:
    """The name of a source that other editions may have another text for."""
    plain = edition.name == plain_edition(edition.paper).name
    return around(sheet) if plain else f"{around(sheet)} of {edition.name}"


def _index(gathered: Gathered, edition: EditionDefinition, texts: Texts, press: Press) -> Sheaves:
    """The index has to know the pages of everything before it."""
    labels = collation.labels(gathered.pieces, gathered.sheaves, edition.recto)
    made: dict[str, tuple[Sheaf, ...]] = {}
    for pages in definition.sheaves((*gathered.book.front, *gathered.book.back)):
        if pages[0].kind in collation.AFTER_THE_OTHERS and not pages[0].is_own:
            name = _own(pages[0].name, edition)
            with press.clock("writing LilyPond"):
                text = texts.index(gathered.book, gathered.chapters, labels, [page.name for page in pages], name)
            made[around(pages[0].name)] = (press.sheaf(name, text),)
    return made


def _sample(
    gathered: Gathered,
    edition: EditionDefinition,
    whole: Pagination,
    shown: tuple[int, ...],
    texts: Texts,
    press: Press,
) -> Pagination:
    """The pages that are shown, and a last one that says what the whole book holds."""
    name = _own("closing", edition)
    chapters = [
        (
            chapter.outline.title,
            whole.label_of(f"chapter:{chapter.name}"),
            sum(anchor.startswith(f"exercise:{chapter.name}:") for anchor in whole.anchors),
            any(gathered.pieces[whole.pages[index].section].name == chapter.name for index in shown),
        )
        for chapter in gathered.chapters
    ]

    def write(style: Style) -> bytes:
        from engraver import lilypond  # only where it is made, not where it is remembered

        told = [lilypond.WholeChapter(*chapter) for chapter in chapters]
        return lilypond.closing(style, gathered.book.title, len(shown), len(whole.pages), told).encode()

    worn = repr((gathered.book.title, len(shown), len(whole.pages), chapters))
    with press.clock("writing LilyPond"):
        text = texts.furniture(gathered.book.style, worn, write, name)
    last = binding.paginate([Section(press.sheaf(name, text), Numbering.UNNUMBERED)])
    return binding.joined(binding.extract(whole, lambda page: page.index in shown), last)


def _furniture(
    gathered: Gathered, edition: EditionDefinition, whole: Pagination, shown: tuple[int, ...] | None, texts: Texts
) -> str:
    def write(style: Style) -> bytes:
        from engraver import lilypond  # only where it is made, not where it is remembered

        worn = list(collation.page_furniture(whole, gathered.pieces, style.say))
        if shown is not None:
            mark = style.say("sample mark")
            last = lilypond.PageFurniture("", True, None, "", (), mark)
            worn = [*(replace(worn[index], mark=mark) for index in shown), last]
        return lilypond.furniture(style, worn).encode()

    spots = [(section.sheaf.pages, [s for s in section.sheaf.spots if s.is_place]) for section in whole.sections]
    labels = [(page.section, page.page, page.label) for page in whole.pages]
    names = {spot.name for _, places in spots for spot in places}
    fills = {name: whole.label_of(name) for name in sorted(names & whole.anchors.keys())}
    heads = {name: landing.page.index for name, landing in whole.anchors.items()}  # what opens where
    ground = repr((gathered.pieces, spots, labels, fills, shown, heads))
    return texts.furniture(gathered.book.style, ground, write, _own("furniture", edition))
