"""All that the analysis found, as a sheet for a person at a terminal. A Groove and its Analysis in, one text out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from textwrap import wrap

from engraver.analysis import (
    Analysis,
    Band,
    Cell,
    CellReading,
    Lane,
    Measures,
    Rate,
    Regrouping,
    band_of,
    fastest,
    next_limbs_entropy,
    sustained_rates,
)
from engraver.chapters.cells import meter_of, plain_step
from engraver.chapters.findings import findings
from engraver.chapters.ladder_sheet import ladder_rows
from engraver.chapters.phrasing import Phrasing
from engraver.chapters.plan import Exercise
from engraver.rhythm import Groove, Meter
from engraver.style import Words

WIDTH = 100  # characters of a line
LABEL = 44  # characters of the column of labels


@dataclass(frozen=True, slots=True)
class Section:
    """Rows of a label and a text; no heading for the first."""

    heading: str
    rows: tuple[tuple[str, str], ...]


def fact_sheet(groove: Groove, facts: Analysis, say: Words, exercises: Sequence[Exercise] = ()) -> str:
    sections = (
        Section(groove.title, tuple(_about(groove, facts, say))),
        Section(say("facts cells"), tuple(_cells(facts, say))),
        Section(say("facts findings"), tuple(("–", each) for each in findings(groove, facts, say, answers=True))),
        Section(say("facts measures"), tuple(_measures(facts.measures, say))),
        Section(say("facts rates", bpm=groove.tempo.bpm), tuple(_rate(groove, rate, say) for rate in facts.rates)),
        Section(say("facts limbs"), tuple(_limbs(facts, say))),
        Section(say("facts regrouping"), tuple(_regrouping(groove, facts, each, say) for each in facts.regroupings)),
        Section(say("facts ladder"), tuple(ladder_rows(exercises, say))),
    )
    return "\n\n".join("\n".join(_lines(section)) for section in sections if section.rows)


def _lines(section: Section) -> Iterator[str]:
    """Labels in a column; one that is too long for it has a line to itself."""
    yield section.heading
    room = min(LABEL, max(len(label) for label, _ in section.rows))
    margin = " " * (room + 4)
    for label, text in section.rows:
        lines = wrap(text, WIDTH - len(margin), break_on_hyphens=False) or [""]
        if len(label) > room:
            yield f"  {label}"
        else:
            yield f"  {label:<{room}}  {lines[0]}"
            lines = lines[1:]
        yield from (margin + line for line in lines)


# ------------------------------------------------------------------ what it is, who carries it
def _about(groove: Groove, facts: Analysis, say: Words) -> Iterator[tuple[str, str]]:
    words = Phrasing(facts.step, say)
    bars = len(groove.bars) - bool(groove.pickup)
    yield say("meter"), ", ".join(dict.fromkeys(str(bar.meter) for bar in groove.bars))
    yield say("tempo"), say("facts tempo", beat=say.value(groove.tempo.beat), bpm=groove.tempo.bpm)
    yield say("length"), f"{say('n bars', n=bars)}, {words.steps_in_figures(facts.steps)}"
    if facts.groupings and groove.bars[-1].meter.beat is None:
        yield say("facts groupings"), say("facts or").join("+".join(map(str, each.parts)) for each in facts.groupings)
    yield say("facts figure"), _lanes(facts.figure, say)
    yield say("facts timekeepers"), _lanes(facts.timekeepers, say)
    if facts.meter_lanes:
        yield say("facts meter lanes"), _lanes(facts.meter_lanes, say)
    if facts.fills:
        yield say("facts fills"), ", ".join(facts.fills)


def _lanes(lanes: Sequence[Lane], say: Words) -> str:
    """The instruments of each layer."""
    layers: dict[str, list[str]] = {}
    for lane in lanes:
        layers.setdefault(lane.layer, []).append(say.name(lane.instrument))
    return "; ".join(f"{', '.join(names)} ({layer})" for layer, names in layers.items()) or say("facts none")


# ------------------------------------------------------------------ cells
def _cells(facts: Analysis, say: Words) -> Iterator[tuple[str, str]]:
    reading, words = facts.cells, Phrasing(facts.step, say)
    if reading is None:
        yield say("facts length"), say("facts no cells")
        return
    yield say("facts length"), f"{words.steps_in_figures(reading.length)}, {_certainty(reading, words)}"
    if reading.start:
        yield say("facts start"), say("facts step n", step=reading.start + 1)
    yield say("skeleton"), " ".join(reading.skeleton)
    yield say("all strokes"), " ".join(reading.full)
    for effect in facts.layer_effects:
        yield f"+ {effect.layer}", " ".join(effect.after)
    if reading.covered:
        yield say("facts covered"), ", ".join(words.runs(reading.covered))
    if reading.remainder:
        begins = say("finding begins", letter=reading.remainder_begins[0]) if reading.remainder_begins else ""
        yield say("facts left over"), words.steps_in_figures(reading.remainder) + begins
    for cell in reading.cells:
        yield from _cell(cell, say)


def _certainty(reading: CellReading, words: Phrasing) -> str:
    if reading.stated:
        return words.say("facts stated")
    if reading.sure:
        return words.say("facts sure", bits=words.say.decimal(reading.gain_bits or 0))
    return words.say("facts unsure", other=words.steps_in_figures(reading.runner_up or 0))


def _cell(cell: Cell, say: Words) -> Iterator[tuple[str, str]]:
    like = "" if cell.base == cell.letter else say("facts like", base=cell.base)
    yield say("facts cell", letter=cell.letter), say("n times", n=cell.count) + like
    for instrument, pattern in cell.strokes:
        yield f"  {say.name(instrument)}", pattern


# ------------------------------------------------------------------ measures, rates, regrouping
def _measures(found: Measures | None, say: Words) -> Iterator[tuple[str, str]]:
    if found is None:
        return
    form = found.euclidean
    values = {
        "over": found.over,
        "longuet-higgins lee": found.longuet_higgins_lee,
        "wnbd": found.wnbd,
        "keith": found.keith,
        "off-beatness": found.off_beatness,
        "pressing": found.pressing,
        "evenness": found.evenness,
    }
    for name, value in values.items():
        shown = say("facts not defined") if value is None else say(f"facts unit {name}", value=_decimal(value, say))
        yield say(f"facts {name}"), shown
    even = say("facts unit euclidean", k=form.k, n=form.n, step=form.rotation + 1) if form else say("facts not so")
    yield say("facts euclidean"), even


def _decimal(value: Fraction | int, say: Words) -> str:
    """Whole, or with two decimals at most."""
    text = str(value) if isinstance(value, int) else f"{float(value):.2f}".rstrip("0").rstrip(".")
    return text.replace(".", say("decimal mark"))


def _rate(groove: Groove, rate: Rate, say: Words) -> tuple[str, str]:
    index = groove.bar_at(rate.onset)
    bar = groove.bars[index]
    step = _decimal((rate.onset - bar.start) / groove.step + 1, say)
    number = index if groove.pickup else index + 1
    where = say("facts bar and step", bar=number, step=step) if number else say("facts pickup", step=step)
    return say(rate.limb.value), say("facts rate", value=_decimal(rate.per_second, say), where=where)


def _limbs(facts: Analysis, say: Words) -> Iterator[tuple[str, str]]:
    """What each limb keeps up, the tempos that the limbs allow, and how predictable they are."""
    for rate in sustained_rates(facts.limbs):
        band = say(f"band {band_of(rate.limb, rate.per_second).name.lower()}")
        yield say(rate.limb.value), say("facts sustained", value=_decimal(rate.per_second, say), band=band)
    limit, working = fastest(facts.limbs), fastest(facts.limbs, Band.WORKING)
    if limit and working:
        yield say("facts fastest"), say("facts fastest tempo", bpm=limit.bpm, working=working.bpm)
        bits = Fraction(round(100 * next_limbs_entropy(facts.limbs, facts.step)), 100)
        yield say("facts entropy"), say("facts entropy bits", value=_decimal(bits, say))


def _regrouping(groove: Groove, facts: Analysis, found: Regrouping, say: Words) -> tuple[str, str]:
    words = Phrasing(facts.step, say)
    over = [say("n cells", n=found.cells_over, count=found.cells_over)] if found.cells_over else []
    left = [words.steps_in_figures(found.remainder)] if found.remainder else []
    rest = say("facts then", rest=words.listed([*over, *left])) if over or left else ""
    reason = say(f"facts reason {found.reason.name.lower()}")
    return str(_meter(groove, facts, found)), f"{say('n bars', n=found.bars)}{rest}: {reason}"


def _meter(groove: Groove, facts: Analysis, found: Regrouping) -> Meter:
    """The groove's own where the bars are as long; else that of plain notes, on a grid of triplets too."""
    own = groove.bars[-1].meter
    _, unit = plain_step(facts.step)
    return own if found.steps * facts.step == own.length else meter_of(found.steps // found.cells, unit, found.cells)
