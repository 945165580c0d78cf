"""Buyers' copies of a release: its editions for the screen and the buyers in, a folder with a copy for each out.

A printer's file and a sample are nobody's own: only screen editions are copied.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from engraver.binding.boxes import POINTS_PER_MM
from engraver.definition import BookDefinition
from engraver.definition.editions import EditionKind
from engraver.errors import DefinitionError, Position, Problem
from engraver.file_name import slug
from engraver.making.edition import imprint
from engraver.making.print_run import Made
from engraver.release.buyers import Buyer, Buyers, read_buyers
from engraver.release.copying import NameplateFont, make_master, nameplate_font, room, write_copies
from engraver.release.package import CHECKSUMS, whole_folder
from engraver.style import Words, font_folders

FACE = "SourceSansPro-Regular.otf"


def nameplate() -> NameplateFont:
    """Raises MissingTool if the package of the font is not installed."""
    return nameplate_font(font_folders()[0] / FACE)


def read_buyers_of(book: BookDefinition, path: Path) -> Buyers:
    """Those whose names can stand on every screen edition, and the rows of all others.

    Raises DefinitionError if the file cannot be used, or there is no edition to copy.
    """
    screens = [edition for edition in book.editions if edition.kind is EditionKind.SCREEN]
    if not screens:
        place = Position(book.folder / "book.yaml", 1, 1)
        raise DefinitionError(Problem(place, "there is no screen edition to copy", "add one under editions"))
    narrowest = room(min(edition.paper.width for edition in screens) * POINTS_PER_MM)
    font, say = nameplate(), book.style.say
    return read_buyers(path, font.unsettable, lambda buyer: font.fits(_said(buyer, say), narrowest))


def copy_for_buyers(book: BookDefinition, made: Iterable[Made], buyers: Sequence[Buyer], folder: Path) -> None:
    """One file for each buyer and screen edition, named by the order, and their checksums. Raises EngravingError."""
    screens = [one for one in made if one.edition.kind is EditionKind.SCREEN]
    with whole_folder(folder) as draft:
        lines = [line for one in screens for line in _copies(book, one, len(screens) > 1, buyers, draft)]
        (draft / CHECKSUMS).write_text("".join(sorted(lines)), encoding="utf-8", newline="\n")


def _copies(book: BookDefinition, one: Made, named: bool, buyers: Sequence[Buyer], draft: Path) -> list[str]:
    """``named``: whether the file says which edition it is. Out: a line of the checksums for each copy."""
    after = f"-{slug(one.edition.name)}" if named else ""
    master = make_master(one.file, draft / ".master.pdf", nameplate())
    say = book.style.say
    copies = write_copies(
        master,
        buyers,
        imprint(book),
        lambda buyer: _said(buyer, say),
        nameplate(),
        lambda buyer: draft / f"{buyer.file_stem}{after}.pdf",
    )
    lines = [f"{copy.sha256}  {copy.file.name}\n" for copy in copies]
    master.pdf.unlink()
    return lines


def _said(buyer: Buyer, say: Words) -> str:
    return say("nameplate", name=buyer.printed, order=buyer.order)
