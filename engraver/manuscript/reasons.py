"""Reasons: for each source of a book, why its text was written now and why it was engraved now, if they were."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from engraver.engraving import Engraved
from engraver.manuscript.texts import Texts


@dataclass(frozen=True, slots=True)
class Cause:
    """``written`` and ``engraved`` are reasons, or "" where what was made earlier was taken."""

    name: str
    written: str
    engraved: str


def causes(texts: Texts, results: Mapping[str, Sequence[Engraved]]) -> tuple[Cause, ...]:
    """Of a long chapter, which is engraved in parts, once: as engraved now if any of them was."""
    return tuple(
        Cause(name, texts.reasons.get(name, ""), _engraved(texts, name) if any(part.fresh for part in parts) else "")
        for name, parts in results.items()
    )


def _engraved(texts: Texts, name: str) -> str:
    if name in texts.new:
        return "for the first time"
    if name in texts.changed:
        return "its text changed"
    return "LilyPond, a font or what the page includes changed, or the store had lost its pages"


def told(why: tuple[Cause, ...]) -> Iterator[str]:
    """A line for each source, for a terminal."""
    width = max((len(cause.name) for cause in why), default=0)
    for cause in why:
        text = f"text written: {cause.written}" if cause.written else "text remembered"
        pages = f"engraved: {cause.engraved}" if cause.engraved else "pages from the store"
        yield f"{cause.name:{width}}  {text}; {pages}"
