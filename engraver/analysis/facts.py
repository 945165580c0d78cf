"""The findings as one plain object for JSON: a Groove and its Analysis in, dicts, lists, numbers and strings out.

Keys are stable: new ones may come, none changes its meaning. Lengths are in steps of ``step``. A fraction that is no
number of steps is a string such as "14/5"; a centre is a whole number or ends in .5.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from engraver.analysis.difficulty import next_limbs_entropy
from engraver.analysis.limbs import Assignment, Band, Rate, fastest, sustained_rates
from engraver.analysis.report import (
    Analysis,
    Cell,
    CellReading,
    CrossRhythm,
    Edit,
    Lane,
    LayerEffect,
    Measures,
    Regrouping,
    Sequence,
)
from engraver.rhythm import Groove, value_name

Plain = dict[str, object]


def facts_object(groove: Groove, analysis: Analysis) -> Plain:
    reading = analysis.cells
    return {
        "title": groove.title,
        "meter": ", ".join(dict.fromkeys(str(bar.meter) for bar in groove.bars)),
        "bars": len(groove.bars) - bool(groove.pickup),
        "steps": analysis.steps,
        "step": value_name(analysis.step),
        "figure": _lanes(analysis.figure),
        "timekeepers": _lanes(analysis.timekeepers),
        "meter_lanes": _lanes(analysis.meter_lanes),
        "fills": list(analysis.fills),
        "cells": _reading(reading) if reading else None,
        "realign": _realign(analysis),
        "cross_rhythms": [_cross_rhythm(each) for each in analysis.cross_rhythms],
        "cell_against_beat": _cross_rhythm(analysis.cell_against_beat) if analysis.cell_against_beat else None,
        "sequence": {
            "skeleton": _sequence(analysis.skeleton_sequence),
            "full": _sequence(analysis.full_sequence),
        },
        "layer_effects": [_effect(each) for each in analysis.layer_effects],
        "measures": _measures(analysis.measures) if analysis.measures else None,
        "measures_over": analysis.measures.over if analysis.measures else None,
        "rates": {rate.limb.value: _rate(rate) for rate in analysis.rates},
        "sustained_rates": {rate.limb.value: _rate(rate) for rate in sustained_rates(analysis.limbs)},
        "fastest_tempo": _fastest_tempos(analysis.limbs),
        "next_limbs_bits": round(next_limbs_entropy(analysis.limbs, analysis.step), 2),
        "regroupings": [_regrouping(each) for each in analysis.regroupings],
        "groupings": [{"parts": list(each.parts), "bits": each.bits} for each in analysis.groupings],
    }


def _lanes(lanes: Iterable[Lane]) -> list[Plain]:
    return [{"layer": lane.layer, "instrument": lane.instrument.name} for lane in lanes]


def _reading(reading: CellReading) -> Plain:
    return {
        "length": reading.length,
        "phrase_steps": reading.phrase_steps,
        "start": reading.start,
        "head": reading.head,
        "passes": reading.passes,
        "stated": reading.stated,
        "sure": reading.sure,
        "gain_bits": reading.gain_bits,
        "runner_up": reading.runner_up,
        "letters": {"skeleton": list(reading.skeleton), "full": list(reading.full)},
        "covered": list(reading.covered),
        "remainder": {"steps": reading.remainder, "begins": list(reading.remainder_begins)},
        "cells": {cell.letter: _cell(cell) for cell in reading.cells},
    }


def _cell(cell: Cell) -> Plain:
    return {
        "count": cell.count,
        "strokes": {instrument.name: line for instrument, line in cell.strokes},
        "base": cell.base,
        "edits": [_edit(edit) for edit in cell.edits],
    }


def _edit(edit: Edit) -> Plain:
    return {"step": edit.step, "instrument": edit.instrument.name, "was": edit.was, "mark": edit.mark}


def _realign(analysis: Analysis) -> Plain | None:
    found = analysis.realign
    return {"lcm": found.lcm, "bars": found.bars, "cells": found.cells} if found else None


def _cross_rhythm(found: CrossRhythm) -> Plain:
    return {
        "a": found.a,
        "b": found.b,
        "ratio": list(found.ratio),
        "cycle_steps": found.cycle_steps,
        "coincidences": found.coincidences,
        "resultant": list(found.resultant),
        "whole_cycles": found.whole_cycles,
        "cut_off_steps": found.cut_off_steps,
        "spacing": list(found.spacing),
        "phase": list(found.phase),
        "turns": list(found.turns),
        "left_over": list(found.left_over),
        "accents": list(found.accents),
    }


def _sequence(found: Sequence | None) -> Plain | None:
    if found is None:
        return None
    likeness = found.sticking
    return {
        "period": found.period,
        "palindrome": found.palindrome,
        "centre": None if found.centre is None else _number(found.centre),
        "mirror_continuation": list(found.mirror_continuation),
        "swapped_halves": found.swapped_halves,
        "turn": found.turn,
        "sticking": likeness
        and {
            "name": likeness.name,
            "distance": likeness.distance,
            "over": likeness.over,
            "rotation": likeness.rotation,
        },
    }


def _effect(effect: LayerEffect) -> Plain:
    return {
        "layer": effect.layer,
        "before": list(effect.before),
        "after": list(effect.after),
        "changes": [
            {
                "index": change.index,
                "was": change.was,
                "letter": change.letter,
                "edits": [_edit(edit) for edit in change.edits],
            }
            for change in effect.changes
        ],
    }


def _measures(found: Measures) -> Plain:
    form = found.euclidean
    return {
        "longuet_higgins_lee": found.longuet_higgins_lee,
        "wnbd": None if found.wnbd is None else str(found.wnbd),
        "keith": found.keith,
        "off_beatness": found.off_beatness,
        "pressing": None if found.pressing is None else _number(found.pressing),
        "evenness": None if found.evenness is None else str(found.evenness),
        "euclidean": form and {"k": form.k, "n": form.n, "rotation": form.rotation},
    }


def _fastest_tempos(limbs: Assignment) -> Plain:
    limits = ((band, fastest(limbs, band)) for band in Band if band is not Band.BEYOND)
    return {band.name.lower(): found.bpm for band, found in limits if found}


def _rate(rate: Rate) -> float:
    return round(float(rate.per_second), 3)


def _regrouping(found: Regrouping) -> Plain:
    return {
        "cells": found.cells,
        "steps": found.steps,
        "bars": found.bars,
        "cells_over": found.cells_over,
        "remainder": found.remainder,
        "reason": found.reason.value,
    }


def _number(value: Fraction) -> int | float:
    """Whole, or halves, which a float holds exactly."""
    return value.numerator if value.denominator == 1 else float(value)
