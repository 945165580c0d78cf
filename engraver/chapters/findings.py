"""What the analysis found, in sentences that a student understands. A Groove and its Analysis in, texts out.

Only what is sure becomes a sentence: pulses are exact; cells must be sure or stated by the author. The order is that of
interest. Every word stands in the words of the style.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction

from engraver.analysis import Analysis, LayerEffect
from engraver.analysis.cross_rhythm import BEAT
from engraver.analysis.report import CellReading
from engraver.chapters.cells import is_barwise
from engraver.chapters.crossings import crossings, joined, meeting
from engraver.chapters.phrasing import Phrasing, Told
from engraver.rhythm import Groove
from engraver.style import Words, capital

ON_THE_PAGE = 3  # so many of the first are printed in a chapter; a reader takes in no more beside the staff
LONGEST_ORDER = 12  # letters that are read out one by one; of a longer row only what changes is told
LONGEST_PERIOD = 8  # letters that are heard to come back
LONGEST_SPREAD = 24  # steps over which an even spread is heard as one shape


def findings(groove: Groove, facts: Analysis, say: Words, *, answers: bool = False) -> tuple[str, ...]:
    """``answers``: also what the chapter asks the student, such as the cells that would complete a mirror."""
    return tuple(dict.fromkeys(_all(Told(groove, facts, Phrasing(facts.step, say)), answers)))


def _all(told: Told, answers: bool) -> Iterator[str]:
    with_beat = joined(each for each in told.facts.cross_rhythms if each.b == BEAT)
    yield from crossings(told, with_beat)
    yield from _cells_and_bars(told, {each.first.spacing[0] for each in with_beat if each.is_on_time})
    yield from _layer_effects(told)
    yield from _order(told, answers)
    yield from _two_readings(told)
    known = {(each.spacing, each.phase) for each in told.facts.cross_rhythms if each.b == BEAT}
    pairs = (each for each in told.facts.cross_rhythms if each.b != BEAT and (each.spacing, each.phase) not in known)
    yield from crossings(told, joined(pairs))
    yield from _spread(told)


# ------------------------------------------------------------------ cells and bar lines
def _cells_and_bars(told: Told, spacings: Collection[int]) -> Iterator[str]:
    """``spacings``: of the pulses that were told of; what they leave over need not be told of the cells again."""
    cells, again, words = told.cells, told.facts.realign, told.words
    if cells is None or again is None or cells.start or is_barwise(told.groove, told.facts):
        return  # cells that begin late meet other places of the bar than those that are counted here
    if again.cells == 1:
        yield words.say("finding cell is bars", bars=words.bars(again.bars))
    else:
        yield words.say(
            "finding realign late" if again.lcm > cells.phrase_steps else "finding realign",
            bars=words.bars(again.bars),
            cells=words.cells(again.cells),
            length=words.steps(cells.length),
        )
    if cells.length not in spacings:
        yield from _cell_and_beat(told)
        yield from _remainder(told, cells)


def _cell_and_beat(told: Told) -> Iterator[str]:
    found, words = told.facts.cell_against_beat, told.words
    if found:
        every, spacing = words.steps(found.spacing[0]), words.say.number(found.spacing[1])
        yield words.say("finding cell and beat", every=every, spacing=spacing, meeting=meeting(words, found))


def _remainder(told: Told, cells: CellReading) -> Iterator[str]:
    words, number = told.words, len(cells.full) // cells.passes
    whole = told.whole(cells.phrase_steps)
    if not whole or not cells.remainder:
        return
    held = words.say("finding whole cells", n=number, count=words.say.number(number))
    begun = words.say("finding begins", letter=cells.remainder_begins[0]) if cells.remainder_begins else ""
    yield words.say("finding remainder", whole=whole, cells=held, left=words.left_over(cells.remainder), begun=begun)


# ------------------------------------------------------------------ what the layers did
def _layer_effects(told: Told) -> Iterator[str]:
    """Only layers that change the order: what comes with every cell alike needs no word."""
    if told.cells is not None:
        for effect in told.facts.layer_effects:
            if effect.before != effect.after:
                yield _effect(told.words, effect)


def _effect(words: Phrasing, effect: LayerEffect) -> str:
    ghosts = all(edit.was == "-" and edit.mark == "g" for change in effect.changes for edit in change.edits)
    who = words.say("finding the ghost notes") if ghosts else words.say("finding the layer", layer=effect.layer)
    if len(effect.after) <= LONGEST_ORDER:
        return words.say("finding becomes", who=who, before=words.order(effect.before), after=words.order(effect.after))
    places = [index for index, (was, now) in enumerate(zip(effect.before, effect.after, strict=True)) if was != now]
    return words.say(
        "finding changes",
        n=len(places),
        who=who,
        count=words.say.number(len(places)),
        total=words.say.number(len(effect.after)),
        places=words.listed(words.runs(places)),
    )


# ------------------------------------------------------------------ the order of the letters
def _order(told: Told, answers: bool) -> Iterator[str]:
    cells, order, words = told.cells, told.facts.full_sequence, told.words
    if cells is None or order is None or len(set(cells.full)) < 2:
        return
    yield from _mirror(words, cells.full, order.palindrome)
    yield from _halves(words, cells.full, order.swapped_halves)
    yield from _hands(told, cells.full)
    if order.period <= min(LONGEST_PERIOD, len(cells.full) // 2):
        yield words.say(
            "finding period", letters=words.order(cells.full[: order.period]), cells=words.cells(order.period)
        )
    if answers and order.centre is not None and order.mirror_continuation:
        more = order.mirror_continuation
        yield words.say(
            "finding mirror more",
            n=len(more),
            count=capital(words.say.number(len(more))),
            letters=words.listed(more),
            centre=_centre(words, cells.full + more, order.centre),
        )


def _mirror(words: Phrasing, letters: Sequence[str], palindrome: bool) -> Iterator[str]:
    if palindrome and len(letters) >= 3:
        yield words.say("finding mirror", centre=_centre(words, letters, Fraction(len(letters) - 1, 2)))


def _centre(words: Phrasing, letters: Sequence[str], centre: Fraction) -> str:
    """On a cell or between two; cells count from one."""
    place = int(centre)
    number = words.say.number(place + 1)
    if centre.denominator == 1:
        return words.say("finding centre on", number=number, letter=letters[place])
    return words.say("finding centre between", number=number, next=words.say.number(place + 2))


def _halves(words: Phrasing, letters: Sequence[str], swapped: bool) -> Iterator[str]:
    """Not told of A B or A A B B, whose halves are of one letter each."""
    half = letters[: len(letters) // 2]
    if swapped and len(set(half)) == 2:
        first, second = dict.fromkeys(letters)
        yield words.say("finding halves", first=first, second=second)


def _hands(told: Told, letters: Sequence[str]) -> Iterator[str]:
    """The same length, and no more than one letter in eight that differs; that two letters alternate is no likeness."""
    order, words = told.facts.full_sequence, told.words
    likeness = order.sticking if order else None
    if (
        order is None
        or likeness is None
        or order.period == 2
        or likeness.over != len(letters)
        or 8 * likeness.distance > likeness.over
    ):
        return
    turned = words.say("finding turned", stroke=words.say.number(likeness.rotation + 1)) if likeness.rotation else ""
    entry = "finding sticking near" if likeness.distance else "finding sticking"
    count = words.say.number(likeness.distance)
    yield words.say(entry, n=likeness.distance, count=count, name=likeness.name, turned=turned)


# ------------------------------------------------------------------ doubt, and how strokes are spread
def _two_readings(told: Told) -> Iterator[str]:
    cells, words = told.facts.cells, told.words
    if cells is not None and not cells.sure and cells.runner_up is not None:
        lengths = sorted((cells.length, cells.runner_up))
        yield words.say("finding two readings", one=words.say.number(lengths[0]), other=words.steps(lengths[1]))


def _spread(told: Told) -> Iterator[str]:
    """A pulse, or all steps but one, are as even too: nobody needs to be told."""
    form = told.facts.measures.euclidean if told.facts.measures else None
    if form and 2 <= form.k <= form.n - 2 and form.n % form.k and form.n <= LONGEST_SPREAD:
        yield told.words.say("finding even", count=told.words.say.number(form.k), steps=told.words.steps(form.n))
