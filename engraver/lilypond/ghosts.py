"""Ghost notes one step apart: a passage in, how many of its steps have parentheses on both sides."""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter, defaultdict
from itertools import pairwise

from engraver.lilypond.lines import Crowd, finest
from engraver.rhythm import Groove
from engraver.style import GhostLook, Style

# From head to head in millimetres of the usual staff, measured: a head in its parentheses and a tenth of a space.
APART = {GhostLook.PARENTHESES: 4.9, GhostLook.BOTH: 4.2}
BESIDE = 3  # staff positions: parentheses are nearly two spaces high, so those farther apart pass one another


def ghost_crowd(groove: Groove, style: Style) -> Crowd | None:
    """None where no ghost note follows another on the next step within a bar, or none stands in parentheses."""
    apart = APART.get(style.ghosts)
    ghosts = [stroke for stroke in groove.strokes if stroke.is_ghost] if apart else []
    if not apart or len(ghosts) < 2:
        return None
    places = defaultdict(set)
    for stroke in ghosts:
        places[stroke.onset].add(style.kit[stroke.instrument].position)
    step, starts = finest(groove), [bar.start for bar in groove.bars]
    crowded = [b for a, b in pairwise(sorted(places)) if b - a <= step and _beside(places[a], places[b])]
    within = Counter(bisect_right(starts, onset) - 1 for onset in crowded if onset not in starts)
    return Crowd(tuple(within[n] for n in range(len(starts))), apart) if within else None


def _beside(some: set[int], others: set[int]) -> bool:
    return any(abs(a - b) <= BESIDE for a in some for b in others)
