"""Parts of a groove by who plays them: a groove and lanes or instruments in, the same groove with no other strokes out.

What a layer silences stays silent.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from engraver.analysis import Lane
from engraver.rhythm import Groove, Instrument


def of_lanes(groove: Groove, lanes: Collection[Lane]) -> Groove:
    """The strokes of these lanes."""
    wanted: dict[str, set[Instrument]] = {}
    for lane in lanes:
        wanted.setdefault(lane.layer, set()).add(lane.instrument)
    return replace(groove, layers=tuple(layer.only(wanted.get(layer.name, ())) for layer in groove.layers))


def of_instruments(groove: Groove, wanted: Collection[Instrument]) -> Groove:
    """What these instruments play."""
    return replace(groove, layers=tuple(layer.only(wanted) for layer in groove.layers))
