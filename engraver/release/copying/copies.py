"""Buyers' copies: a master and the buyers go in, a file for each of them comes out.

A copy is the master's bytes and an appended update of a few kilobytes. No copy is held in memory, and nothing of one
buyer outlives the writing of his copy.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from engraver.binding import Imprint
from engraver.binding.imprint import information, packet
from engraver.errors import EngravingError, Problem
from engraver.release.buyers import Buyer
from engraver.release.copying.embedding import FONT
from engraver.release.copying.master import Master
from engraver.release.copying.nameplate import SIZE, NameplateFont, draw
from engraver.release.copying.pdf_update import appended, stream, text

LICENSED_TO, ORDER_NUMBER = "LicensedTo", "OrderNumber"


@dataclass(frozen=True, slots=True)
class Copy:
    """``line`` of the buyers' file, the file made for it, and the SHA-256 of that."""

    line: int
    file: Path
    sha256: str


def write_copies(
    master: Master,
    buyers: Iterable[Buyer],
    imprint: Imprint,
    say: Callable[[Buyer], str],
    font: NameplateFont,
    path: Callable[[Buyer], Path],
) -> Iterator[Copy]:
    """Write each copy to where ``path`` says. ``say``: what stands on its pages.

    Raises EngravingError; copies that were made by then are whole.
    """
    for buyer in buyers:
        update = _update(master, buyer, imprint, say(buyer), font)
        _write(master.pdf, update, path(buyer))
        digest = master.sha256.copy()
        digest.update(update)
        yield Copy(buyer.position.line, path(buyer), digest.hexdigest())


def _update(master: Master, buyer: Buyer, imprint: Imprint, said: str, font: NameplateFont) -> bytes:
    own = replace(imprint, extras=(*imprint.extras, (LICENSED_TO, buyer.name), (ORDER_NUMBER, buyer.order)))
    fields = " ".join(f"{name} {text(value)}" for name, value in information(own).items())
    half = master.room / 2
    form = (
        f"/Type /XObject /Subtype /Form /BBox [{-half:.3f} {-SIZE:.3f} {half:.3f} {SIZE:.3f}] "
        f"/Resources << /Font << {FONT} {master.font} 0 R >> >>"
    )
    objects = {
        master.nameplate: stream(draw(said, font, master.room), form),
        master.trailer.information: f"<< {fields} >>".encode(),
        master.packet: stream(packet(own), "/Type /Metadata /Subtype /XML"),
    }
    return appended(objects, master.trailer)


def _write(master: Path, update: bytes, out: Path) -> None:
    draft = out.with_name(f".{out.name}.{os.getpid()}.part")
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(master, draft)  # by the kernel where it can: no bytes pass through this process
        with draft.open("ab") as file:
            file.write(update)
        draft.replace(out)
    except OSError as error:
        raise EngravingError(Problem(None, f'"{out}" could not be written: {error.strerror or error}')) from error
    finally:
        draft.unlink(missing_ok=True)
