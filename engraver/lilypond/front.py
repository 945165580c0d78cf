"""The pages before the chapters as LilyPond source: rights and cautions; parts and the author's own pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engraver.chapters import ChapterPlan
from engraver.lilypond.grid import grid
from engraver.lilypond.hearing import doses
from engraver.lilypond.matter import LISTED, Matter
from engraver.lilypond.prose import blocks
from engraver.lilypond.source import Source
from engraver.lilypond.title import Circle, Cover, picture_told
from engraver.prose import Prose


@dataclass(frozen=True, slots=True)
class Origin:
    """Whose idea a groove is."""

    title: str
    idea: str


def origin_told(plan: ChapterPlan) -> Origin | None:
    return Origin(plan.definition.title, plan.definition.idea) if plan.definition.idea else None


def rights(matter: Matter, covers: Sequence[Cover], circles: Sequence[Circle], origins: Sequence[Origin]) -> Source:
    say, words = matter.say, matter.words
    imprint = ". ".join(part.rstrip(".") for part in (words.edition, words.publisher, words.date.isoformat()) if part)
    shown = picture_told(matter, covers, circles)
    rows = (
        (say("rights"), tuple(text for text in (words.rights,) if text)),
        (say("imprint"), (f"{imprint}. {say('engraved with', fonts=_fonts(matter))}", *shown)),
        (say("grooves"), tuple(f"{one.title}: {one.idea}" for one in origins)),
        (say("others"), (say("others text"),)),
    )
    return matter.source("rights", {"rights": tuple((label, texts) for label, texts in rows if texts)})


def _fonts(matter: Matter) -> str:
    """The families that the words are set in, each once."""
    own, design = matter.style.fonts, grid(matter.style.design)
    text = own.text.regular.name if own.text else design.text
    labels = own.labels.regular.name if own.labels else design.labels
    return text if text == labels else matter.say("finding list", first=text, last=labels)


def cautions(matter: Matter) -> Source:
    return matter.source("cautions", {"doses": doses(matter.say)})


def own(matter: Matter, name: str, heading: str, text: Prose) -> Source:
    """A page in the author's words; ``heading`` empty: the title of the page whose place it takes."""
    shown = heading or (matter.say(LISTED[name][0]) if name in LISTED else matter.say("rights page"))
    return matter.source("own", {"anchor": name, "title": shown, "text": blocks(text)})


def part(matter: Matter, anchor: str, number: int, heading: str, text: Prose) -> Source:
    label = matter.say("part n", n=number)
    return matter.source("part", {"anchor": anchor, "label": label, "title": heading, "text": blocks(text)})
