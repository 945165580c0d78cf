"""The order of the letters: its period, its mirror, what would complete one. Letters in, a `Sequence` out."""

from __future__ import annotations

from collections.abc import Sequence as Letters
from fractions import Fraction

from engraver.analysis.pulse import period
from engraver.analysis.report import Sequence
from engraver.analysis.sticking import nearest_sticking


def sequence(letters: Letters[str]) -> Sequence | None:
    if not letters:
        return None
    start = mirror_start(letters)
    return Sequence(
        period=period(letters),
        palindrome=is_palindrome(letters),
        centre=None if start is None else Fraction(start + len(letters) - 1, 2),
        mirror_continuation=() if start is None else tuple(reversed(letters[:start])),
        swapped_halves=has_swapped_halves(letters),
        turn=turn(letters),
        sticking=nearest_sticking(letters),
    )


def has_swapped_halves(letters: Letters[str]) -> bool:
    """Whether the second half is the first with two letters exchanged, as R L R R is answered by L R L L."""
    half, odd = divmod(len(letters), 2)
    pairs = set(zip(letters[:half], letters[half:], strict=False))
    return not odd and len(set(letters)) == 2 and all(a != b for a, b in pairs)


def turn(letters: Letters[str]) -> int:
    """The fewest places by which the sequence, taken as a ring, can be turned and be the same."""
    return period([*letters, *letters])


def is_palindrome(letters: Letters[str]) -> bool:
    return tuple(letters) == tuple(reversed(letters))


def mirror_start(letters: Letters[str]) -> int | None:
    """Where the longest mirror that reaches the end begins, if it is worth telling.

    The letters before it, turned round, are the shortest continuation that makes the whole a mirror.
    """
    start = next(place for place in range(len(letters)) if is_palindrome(letters[place:]))
    mirrored = letters[start:]
    return start if len(mirrored) >= 3 and len(set(mirrored)) >= 2 else None
