"""Where a book comes from and goes to: its folder in, the places of all that is made of it out."""

from __future__ import annotations

import hashlib
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from engraver.engraving import Engine, Workshop
from engraver.file_name import slug
from engraver.style import Style, include_folders


@dataclass(frozen=True, slots=True)
class Where:
    """``engine`` names a LilyPond other than the one that came with the program; ``workers`` run at once."""

    folder: Path
    out: Path
    engine: str | None = None
    workers: int | None = None

    @property
    def name(self) -> str:
        return self.folder.resolve().name

    @property
    def book(self) -> Path:
        return self.out / f"{self.name}.pdf"

    @property
    def store(self) -> Path:
        return self.out / "store"

    @property
    def midi(self) -> Path:
        return self.out / "midi" / slug(self.name)

    @property
    def editions(self) -> Path:
        return self.out / "editions"

    @property
    def release(self) -> Path:
        return self.out / "release"

    @property
    def sources(self) -> Path:
        return self.out / "source" / self.name


def workshop(where: Where, style: Style) -> Workshop:
    """Engraves with the design and the fonts of a style, and keeps what it engraved in the store."""
    include = [*include_folders(style.design), *_own_fonts(where, style)]
    return Workshop(Engine.find(where.engine), include, where.store, workers=where.workers)


def _own_fonts(where: Where, style: Style) -> Iterator[Path]:
    """A folder with the author's fonts and nothing else: all that lies in an include folder counts as read."""
    own = {face.file: face.source for face in style.fonts.faces if face.source}
    if not own:
        return
    folder = where.out / "fonts" / hashlib.sha256(" ".join(sorted(own)).encode()).hexdigest()[:16]
    folder.mkdir(parents=True, exist_ok=True)
    for name, source in own.items():
        shutil.copyfile(source, folder / name)
    yield folder
