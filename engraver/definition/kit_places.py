"""Where the author's instruments stand on the set: what the rows of a kit leave open, and what cannot be.

In: a kit with the author's rows in it, and where those are written. Out: the kit, every sound of a drum where the drum
stands; faults.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from engraver.errors import Position, Problem, meant
from engraver.rhythm import Instrument, Limbs, Pedal
from engraver.style import Kit, KitRow

Places = Mapping[Instrument, Mapping[str, Position]]  # of an author's rows, where each of its keys is written
_OF_THE_FOOT = (Pedal.PRESS, Pedal.SPLASH)


def at_their_surfaces(kit: Kit, written: Places) -> Kit:
    """An author's sound of another instrument stands where that does, unless its row says otherwise."""
    return kit.with_rows(
        replace(row, across=on.across)
        for row in _own(kit, written)
        if "surface" in written[row.instrument] and "across" not in written[row.instrument]
        if (on := surface_of(row, kit))
    )


def surface_of(row: KitRow, kit: Kit) -> KitRow | None:
    """The row of what is struck, if another instrument is named."""
    return next((other for other in kit.rows if other.instrument.name == row.surface and other is not row), None)


def faults(kit: Kit, written: Places) -> Iterator[Problem]:
    """What the author's rows say of feet, hands and places that contradicts itself."""
    for row in _own(kit, written):
        places = written[row.instrument]
        yield from _limbs(row, places)
        if "surface" in places:
            yield from _surface(row, kit, places["surface"])


def _own(kit: Kit, written: Places) -> Iterator[KitRow]:
    return (row for row in kit.rows if row.instrument in written)


def _limbs(row: KitRow, places: Mapping[str, Position]) -> Iterator[Problem]:
    by_hand, name = row.limbs is Limbs.HANDS, row.instrument
    if by_hand and "foot" in places:
        yield Problem(
            places["foot"], f"hands strike {name}, so no foot plays it", "leave foot out, or write limbs: feet"
        )
    if not by_hand and "lead" in places and row.lead:
        message = f"feet play {name}, so no hand keeps time on it"
        yield Problem(places["lead"], message, "leave lead out, or write limbs: hands")
    if "pedal" in places and row.pedal and by_hand == (row.pedal in _OF_THE_FOOT):
        whose = (
            "closed or open are for what hands strike" if not by_hand else "press and splash are strokes of the foot"
        )
        yield Problem(places["pedal"], f"{name} cannot ask for pedal: {row.pedal.value}", whose)


def _surface(row: KitRow, kit: Kit, place: Position) -> Iterator[Problem]:
    on = surface_of(row, kit)
    if row.surface == row.instrument.name:
        return
    if on is None:
        others = [other.instrument.name for other in kit.rows if other is not row]
        hint = meant(row.surface, others, "name the instrument that it is a sound of")
        yield Problem(place, f'"{row.surface}" is not an instrument of the kit', hint)
    elif on.across is not None and row.across != on.across:
        message = f"{row.instrument} is struck on {on.instrument}, which stands at {on.across}, and not at {row.across}"
        yield Problem(place, message, "leave across out")
