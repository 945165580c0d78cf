"""Cross-rhythms in sentences: which pulses go against the beat or one another, and when they meet again.

CrossRhythms in, texts out. Pulses that are alike are told of together.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from engraver.analysis import CrossRhythm
from engraver.analysis.cross_rhythm import BEAT
from engraver.chapters.phrasing import Phrasing, Told
from engraver.style import capital


@dataclass(frozen=True, slots=True)
class Together:
    """Cross-rhythms alike in all but the names: instruments, and whether their accents alone are meant."""

    first: CrossRhythm
    ours: tuple[tuple[str, bool], ...]
    theirs: tuple[tuple[str, bool], ...]

    @property
    def is_many(self) -> bool:
        return len(self.ours) > 1 or self.ours[0][1]

    @property
    def is_on_time(self) -> bool:
        """It begins with the phrase; else what is left over at the end would not be what the cycle lacks."""
        return self.first.phase[0] == 0


def joined(found: Iterable[CrossRhythm]) -> list[Together]:
    """The pulses that begin first come first, so that later ones can be told by them."""
    groups: dict[object, list[CrossRhythm]] = {}
    for each in sorted(found, key=lambda each: each.phase[0]):
        groups.setdefault((each.spacing, each.phase, each.whole_cycles, each.cut_off_steps), []).append(each)
    return [
        Together(
            alike[0],
            tuple(dict.fromkeys((each.a, each.accents[0]) for each in alike)),
            tuple(dict.fromkeys((each.b, each.accents[1]) for each in alike)),
        )
        for alike in groups.values()
    ]


def crossings(told: Told, joined: Sequence[Together]) -> Iterator[str]:
    """One finding for each pair of spacings; who else keeps it, only later, is told at its end."""
    by_spacing: dict[object, list[Together]] = {}
    for each in joined:
        by_spacing.setdefault((each.first.spacing, each.theirs), []).append(each)
    for first, *later in by_spacing.values():
        yield " ".join([_crossing(told, first), *(_later(told.words, each, first) for each in later)])


def _crossing(told: Told, each: Together) -> str:
    found, words = each.first, told.words
    text = words.say(
        "finding cross",
        n=2 if each.is_many else 1,
        who=_who(words, each),
        every=words.steps(found.spacing[0]),
        other=words.listed([words.pulse(*name) for name in each.theirs]),
        spacing=words.say.number(found.spacing[1]),
        meeting=meeting(words, found),
    )
    return f"{text} {_held(told, each)}".strip()


def _who(words: Phrasing, each: Together) -> str:
    return capital(words.listed([words.pulse(*name) for name in each.ours]))


def _later(words: Phrasing, each: Together, first: Together) -> str:
    late = words.steps(each.first.phase[0] - first.first.phase[0])
    return words.say("finding as often", n=2 if each.is_many else 1, who=_who(words, each), late=late)


def meeting(words: Phrasing, found: CrossRhythm) -> str:
    """When both strike together again, if they ever do and it starts over no sooner."""
    length = words.beats(found.ratio[1]) if found.b == BEAT else words.steps(found.cycle_steps)
    if not found.coincidences:
        return words.say("finding never meet", length=length)
    return words.say("finding meet" if found.whole_cycles else "finding cut before", length=length)


def _held(told: Told, each: Together) -> str:
    """How often the pulse fits in before it starts over. Of two instruments' pulses that would be too much."""
    found, words = each.first, told.words
    whole = told.whole(found.whole_cycles * found.cycle_steps + found.cut_off_steps)
    if found.b != BEAT or not each.is_on_time or not whole:
        return ""
    turns, left = found.turns[0], found.left_over[0]
    whose = words.say("finding whose", n=2 if each.is_many else 1)
    entry = "finding hold" if left else "finding hold exactly"
    count = words.say.number(turns)
    return words.say(entry, n=turns, whole=whole, count=count, whose=whose, left=words.left_over(left))
