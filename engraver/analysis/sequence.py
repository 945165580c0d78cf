"""The order of the letters: its period, its mirror, what would complete one. Letters in, a `Sequence` out."""

from __future__ import annotations

from collections.abc import Sequence as Letters
from fractions import Fraction

from engraver.analysis.pulse import period
from engraver.analysis.report import Sequence


def sequence(letters: Letters[str]) -> Sequence | None:
    if not letters:
        return None
    start = mirror_start(letters)
    return Sequence(
        period=period(letters),
        palindrome=is_palindrome(letters),
        centre=None if start is None else Fraction(start + len(letters) - 1, 2),
        mirror_continuation=() if start is None else tuple(reversed(letters[:start])),
    )


def is_palindrome(letters: Letters[str]) -> bool:
    return tuple(letters) == tuple(reversed(letters))


def mirror_start(letters: Letters[str]) -> int | None:
    """Where the longest mirror that reaches the end begins, if it is worth telling.

    The letters before it, turned round, are the shortest continuation that makes the whole a mirror.
    """
    start = next(place for place in range(len(letters)) if is_palindrome(letters[place:]))
    mirrored = letters[start:]
    return start if len(mirrored) >= 3 and len(set(mirrored)) >= 2 else None
