"""The groove seen by its cells: regrouped bars, ribbons of letters, one passage a cell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from engraver.analysis import Analysis
from engraver.analysis.report import Cell, CellReading, Edit
from engraver.chapters.lanes import of_lanes
from engraver.chapters.plan import CellCard, Passage, Ribbon
from engraver.rhythm import Groove, Meter, Span

FEW_EDITS = 4  # strokes by which a cell may differ and still be called like another
LONGEST_BAR = 24  # steps of a regrouped bar; longer ones are hard to read


def figure_of(groove: Groove, facts: Analysis) -> Groove:
    """The strokes of the figure alone."""
    return of_lanes(groove, facts.figure)


def plain_step(step: Fraction) -> tuple[Fraction, int]:
    """The factor that makes a step a plain note value, and the note's number: (1, 16) for 1/16, (3/2, 8) for 1/12."""
    if step.numerator == 1 and step.denominator & (step.denominator - 1) == 0:
        return Fraction(1), step.denominator
    unit = 1 << (step.denominator.bit_length() - 1)
    return Fraction(1, unit) / step, unit


def meter_of(steps: int, unit: int, times: int = 1) -> Meter:
    """The meter of ``times`` runs of ``steps`` notes of 1/``unit``, in the largest unit that holds them."""
    while steps % 2 == 0 and unit > 4:
        steps, unit = steps // 2, unit // 2
    return Meter(Meter.of(steps, unit).beats * times, unit)


def lead(facts: Analysis) -> int:
    """Steps of a pickup, before the phrase begins."""
    return int(facts.phrase.start / facts.step)


def phrases(groove: Groove, facts: Analysis) -> int:
    """How often the groove comes to its phrase."""
    assert facts.cells
    return int((groove.length - facts.phrase.start) / (facts.cells.phrase_steps * facts.step))


def is_barwise(groove: Groove, facts: Analysis) -> bool:
    """Cell and bar line always fall together: regrouping would show nothing."""
    assert facts.cells
    length = facts.cells.length * facts.step
    return facts.cells.start == 0 and all(
        (meter.length / length).denominator == 1 for meter in {bar.meter for bar in groove.bars if bar.is_whole}
    )


def cells_a_bar(groove: Groove, facts: Analysis) -> int:
    """As many as come back in the same order, if that makes a readable bar; else nearest to the groove's own bar."""
    cells = facts.cells
    assert cells
    bar = int(groove.bars[-1].meter.length / facts.step)
    period = facts.full_sequence.period if facts.full_sequence else 1
    nearest = max(1, min(round(bar / cells.length), LONGEST_BAR // cells.length or 1))
    fits = 2 * bar <= 3 * period * cells.length and 2 * period * cells.length <= 3 * bar
    return period if fits and period * cells.length <= LONGEST_BAR else nearest


def regroup(groove: Groove, facts: Analysis) -> Passage | None:
    """The same strokes barred by the cell; None where there are no cells or they are the bar's own."""
    cells = facts.cells
    if cells is None or is_barwise(groove, facts):
        return None
    factor, unit = plain_step(facts.step)
    pickup = (meter_of(lead(facts), unit),) if lead(facts) else ()
    meters = pickup + tuple(_meters(cells, cells_a_bar(groove, facts), unit)) * phrases(groove, facts)
    barred = groove.regroup(meters) if factor == 1 else groove.scale(factor, meters)
    row = ribbons(groove, facts, factor)
    return Passage("regrouped view", barred, ribbons=row, scale=factor, mirrors=mirrors(row, facts))


def _meters(cells: CellReading, a_bar: int, unit: int) -> Iterable[Meter]:
    """The bars of one phrase."""
    if cells.start:
        yield meter_of(cells.start, unit)
    whole = (cells.phrase_steps - cells.start) // cells.length
    yield from [meter_of(cells.length, unit, a_bar)] * (whole // a_bar)
    if whole % a_bar:
        yield meter_of(cells.length, unit, whole % a_bar)
    rest = cells.phrase_steps - cells.start - whole * cells.length
    if rest:
        yield meter_of(rest, unit)


def ribbons(groove: Groove, facts: Analysis, factor: Fraction = Fraction(1)) -> tuple[Ribbon, ...]:
    """The letters over the whole groove, what is left over included."""
    cells = facts.cells
    assert cells
    step = facts.step * factor
    row = [Ribbon(None, facts.phrase.start * factor)] if facts.phrase.start else []
    a_phrase = len(cells.full) // cells.passes
    for turn in range(phrases(groove, facts)):
        if cells.start:
            row.append(Ribbon(None, cells.start * step))
        first = (turn % cells.passes) * a_phrase
        row.extend(Ribbon(letter, cells.length * step) for letter in cells.full[first : first + a_phrase])
        if cells.remainder:
            begun = _begun(cells, cells.full[first : first + a_phrase])
            row.append(Ribbon(begun, cells.remainder * step, cut=bool(begun)))
    return tuple(row)


def is_mirror(facts: Analysis) -> bool:
    """The letters read the same from both ends, and that is worth telling."""
    cells, sequence = facts.cells, facts.full_sequence
    if cells is None or sequence is None or not cells.sure:
        return False
    return sequence.palindrome and len(cells.full) >= 3 and len(set(cells.full)) > 1


def mirrors(row: Iterable[Ribbon], facts: Analysis) -> tuple[Fraction, ...]:
    """The middle of the letters each time that they have gone by: in a cell, or halfway from one to the next."""
    if not is_mirror(facts):
        return ()
    assert facts.cells
    count, spans = len(facts.cells.full), tuple(_cell_spans(row))
    last = count - 1
    return tuple(
        (spans[first + last // 2].end + spans[first + count // 2].start) / 2
        for first in range(0, len(spans) - last, count)
    )


def _cell_spans(row: Iterable[Ribbon]) -> Iterator[Span]:
    """Where each whole cell of a row lies."""
    start = Fraction(0)
    for ribbon in row:
        if ribbon.letter and not ribbon.cut:
            yield Span(start, start + ribbon.length)
        start += ribbon.length


def _begun(cells: CellReading, letters: tuple[str, ...]) -> str:
    """The cell that the remainder begins, one of this phrase's own if there is a choice; "" for none."""
    own = [letter for letter in cells.remainder_begins if letter in letters]
    return next(iter([*own, *cells.remainder_begins]), "")


def ribbons_in(row: tuple[Ribbon, ...], span: Span) -> tuple[Ribbon, ...]:
    """The part of a row of ribbons that lies over a span; a cell that the span cuts is marked so."""
    found: list[Ribbon] = []
    start = Fraction(0)
    for ribbon in row:
        whole = Span(start, start + ribbon.length)
        part = whole.clip(span)
        if part:
            found.append(replace(ribbon, length=part.length, cut=ribbon.cut or (part != whole and bool(ribbon.letter))))
        start = whole.end
    return tuple(found)


def own_meter(groove: Groove, start: Fraction, length: Fraction) -> Meter | None:
    """The meter of the bar that a cell fills, so that it is beamed as it is in the groove."""
    return next((bar.meter for bar in groove.bars if bar.start == start and bar.length == length), None)


def cards(groove: Groove, facts: Analysis) -> tuple[CellCard, ...]:
    """Each cell once, as it stands where it first comes: its figure, without what keeps the time."""
    cells = facts.cells
    if cells is None:
        return ()
    figure = figure_of(groove, facts)
    factor, unit = plain_step(facts.step)
    length = cells.length * facts.step
    found: list[CellCard] = []
    for cell in cells.cells:
        window = figure.slice(Span(cell.first, cell.first + length))
        meters = (own_meter(groove, cell.first, length) or meter_of(cells.length, unit),)
        alone = window.regroup(meters) if factor == 1 else window.scale(factor, meters)
        like, edits = likeness(cell, [card.cell for card in found])
        found.append(CellCard(cell, Passage(f"cell {cell.letter}", alone, cell.first, scale=factor), like, edits))
    return tuple(found)


def likeness(cell: Cell, earlier: Sequence[Cell]) -> tuple[str, tuple[Edit, ...]]:
    """The cell it is a changed form of; else the earlier one that differs in a few strokes, if there is one."""
    if cell.base != cell.letter:
        return cell.base, cell.edits
    near = [(edits, other.letter) for other in earlier if 0 < len(edits := _edits(other, cell)) <= FEW_EDITS]
    edits, letter = min(near, key=lambda each: len(each[0]), default=((), ""))
    return letter, edits


def _edits(was: Cell, now: Cell) -> tuple[Edit, ...]:
    """Stroke by stroke, where both are written on the same steps."""
    before, after = dict(was.strokes), dict(now.strokes)
    length = len(next(iter([*before.values(), *after.values()]), ""))
    lines = [*before.values(), *after.values()]
    if any(len(line) != length or "(" in line for line in lines):
        return ()
    return tuple(
        Edit(step, instrument, old, new)
        for step in range(length)
        for instrument in sorted({*before, *after})
        if (old := before.get(instrument, "-" * length)[step]) != (new := after.get(instrument, "-" * length)[step])
    )
