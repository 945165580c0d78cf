"""The sentences about bar lines that follow the cell: over the regrouped view, and where cells fit the bar anyway."""

from __future__ import annotations

from engraver.analysis import Lane
from engraver.chapters import ChapterPlan, Passage
from engraver.chapters.cells import lead
from engraver.lilypond.facts import sure_cells
from engraver.rhythm import Instrument, Limbs
from engraver.style import Kit, Words, capital


def letters_on_groove(plan: ChapterPlan, say: Words) -> str:
    if plan.regrouped or not plan.whole.ribbons or not sure_cells(plan):
        return ""
    assert plan.facts.cells
    bar = next(bar for bar in plan.groove.bars if bar.is_whole)
    each = int(bar.length / (plan.facts.cells.length * plan.facts.step))
    return say("letters on groove", n=each, count=say.number(each), letters=" ".join(plan.facts.cells.full))


def backbeat(plan: ChapterPlan, kit: Kit) -> Lane | None:
    """What says where the bar is: the hands' lane, if they have one."""
    feet = {i for i in plan.groove.instruments if kit[i].limbs is Limbs.FEET}
    return min(plan.facts.meter_lanes, key=lambda lane: lane.instrument in feet, default=None)


def regrouped_text(plan: ChapterPlan, passage: Passage, struck: Instrument | None, say: Words) -> str:
    """``struck``: whose beats stand under the staff."""
    cells = plan.facts.cells
    assert cells
    first = passage.groove.bars[bool(cells.start) + bool(lead(plan.facts))]
    meter = str(first.meter)
    each = int(first.length / (cells.length * plan.facts.step * passage.scale))
    group = (
        say("regrouped one", meter=meter)
        if each == 1
        else say("regrouped many", count=say.number(each).capitalize(), meter=meter)
    )
    wording = "equal steps" if passage.scale == 1 else "respelled"
    equal = capital(say(wording, name=say.value(plan.facts.step), step=say.value(passage.groove.step)))
    parts = [equal, say("regrouped text", group=group)]
    if struck:
        parts.append(say("regrouped beats", instrument=say.label(struck)))
    if cells.remainder:
        parts.append(say("regrouped left", n=cells.remainder, count=say.number(cells.remainder)))
    return " ".join(parts)


def counted_caption(plan: ChapterPlan, passage: Passage, say: Words) -> str:
    """What stands over the counted bar lines of an exercise that has the cell's too."""
    if passage.scale == 1:
        return say("counted below")
    return say("counted below respelled", name=say.value(passage.groove.step), step=say.value(plan.facts.step))
