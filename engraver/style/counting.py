"""Counting syllables: what is said on the parts of a beat after its number. Sets come from ``counting.yaml``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources

from engraver.style.shipped import read_shipped

PARTS = (2, 3, 4)  # of a beat, for which there are syllables


@dataclass(frozen=True, slots=True)
class Syllables:
    """``halves``, ``thirds`` and ``quarters``: the syllables after the number where a beat has so many parts."""

    name: str
    halves: tuple[str, ...]
    thirds: tuple[str, ...]
    quarters: tuple[str, ...]

    def of(self, parts: int) -> tuple[str, ...]:
        """None where a beat has another number of parts than two, three or four."""
        return {2: self.halves, 3: self.thirds, 4: self.quarters}.get(parts, ())


def syllable_sets() -> Mapping[str, Syllables]:
    """Every set under its name."""
    return {name: own for sets in _sets().values() for name, own in sets.items()}


def syllables_of(language: str) -> Syllables:
    """The set that a language has if none is chosen."""
    return next(iter(_sets()[language].values()))


@cache
def _sets() -> Mapping[str, Mapping[str, Syllables]]:
    rows = read_shipped(resources.files(__package__).joinpath("counting.yaml").read_text("utf-8"))
    found: dict[str, dict[str, Syllables]] = {}
    for name, row in rows.items():
        own = Syllables(name, *(tuple(str(row[parts]).split()) for parts in PARTS))
        found.setdefault(row["language"], {})[name] = own
    return found
