"""The name under which a result is remembered: a hash of all that it depends on, and of nothing else."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path

from engraver.engraving.engine import Engine
from engraver.engraving.run import OPTIONS

_FORMAT = "1"  # of the store; another one makes everything again
_FONTS = frozenset({".otf", ".ttf", ".otc", ".ttc", ".pfb"})
_READ_BY_LILYPOND = _FONTS | {".ily", ".ly", ".scm", ".eps", ".svg", ".png"}


class Keys:
    """Keys for texts engraved by one engine with one set of include folders, which are read once, now.

    ``ground`` is the hash of all that they have in common.
    """

    def __init__(self, engine: Engine, include: Sequence[Path]) -> None:
        settings = [_FORMAT, engine.version, *OPTIONS]
        self.ground = _hash(settings + [part for folder in include for part in ("folder", *_contents(folder))])

    def key(self, text: str) -> str:
        return _hash([self.ground, text])


def _contents(folder: Path) -> Iterator[str]:
    """Names from the folder, and hashes, of what LilyPond could read there; the folder itself may lie anywhere."""
    for path in sorted(folder.rglob("*")):
        if path.suffix.lower() in _READ_BY_LILYPOND and path.is_file():
            yield path.relative_to(folder).as_posix()
            yield _font_hash(path.absolute()) if path.suffix.lower() in _FONTS else file_hash(path)


@cache
def _font_hash(path: Path) -> str:
    return file_hash(path)  # fonts are big and do not change while the program runs


def file_hash(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _hash(parts: Sequence[str]) -> str:
    total = hashlib.sha256()
    for part in parts:
        content = part.encode("utf-8", "surrogatepass")  # LilyPond shall refuse such text, not we
        total.update(b"%d:" % len(content) + content)  # lengths: "ab", "c" is not "a", "bc"
    return total.hexdigest()
