"""The text edition, for readers who cannot see the staff: a book's own words and its chapter plans go in, one page of
HTML comes out.

Headings, lists and language marks only, so that a screen reader can go from chapter to chapter and from bar to bar.
Source of the structure: HTML Living Standard, 4.3 (sections and headings) and 4.4.8 (lists); WCAG 2.2, 1.3.1 and 3.1.1.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from html import escape

from engraver.book_words import BookWords
from engraver.chapters import ChapterPlan, Exercise
from engraver.chapters.spoken import SpokenBar, bar_name, spoken
from engraver.prose import Block, Prose, Weight
from engraver.rhythm import Groove
from engraver.style import Style

_HEAD = """<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>{title}</title>
<style>body {{ font: 1.1rem/1.5 sans-serif; max-width: 42rem; margin: 2rem auto; padding: 0 1rem }}</style>
</head>
<body>"""
_WEIGHTS = {Weight.PLAIN: "{}", Weight.EMPHASIS: "<em>{}</em>", Weight.STRONG: "<strong>{}</strong>"}


def text_edition(book: BookWords, plans: Iterable[ChapterPlan], style: Style) -> str:
    """Every groove and every exercise, bar by bar."""
    plans = tuple(plans)
    return "\n".join([*_front(book, plans, style), *(part for p in plans for part in _chapter(p, style)), _END])


_END = "</main>\n</body>\n</html>\n"


def _front(book: BookWords, plans: Iterable[ChapterPlan], style: Style) -> Iterator[str]:
    said = style.say("text edition")
    yield _HEAD.format(language=escape(book.language), title=escape(f"{book.title}: {said}"))
    yield f"<header>\n<h1>{escape(book.title)}</h1>"
    yield from (
        f"<p>{escape(line)}</p>" for line in (book.author, style.say("text edition about"), book.rights) if line
    )
    yield f'</header>\n<nav aria-label="{escape(style.say("contents"))}">\n<ol>'
    yield from (f'<li><a href="#{escape(p.name)}">{escape(p.definition.title)}</a></li>' for p in plans)
    yield "</ol>\n</nav>\n<main>"


def _chapter(plan: ChapterPlan, style: Style) -> Iterator[str]:
    yield f'<section id="{escape(plan.name)}">\n<h2>{escape(plan.definition.title)}</h2>'
    yield from _prose(plan.definition.text)
    yield f"<p>{escape(_meters(plan.groove))}, {escape(_tempo(plan.groove, style))}</p>"
    shown = plan.regrouped or plan.whole
    letters = [ribbon.letter for ribbon in shown.ribbons if ribbon.letter]
    if letters:
        yield f"<p>{escape(style.say('text edition cells', letters=' '.join(letters)))}</p>"
    yield f"<h3>{escape(style.say('the whole groove'))}</h3>"
    yield from _bars(plan.groove, style, 4)
    for number, exercise in enumerate(plan.exercises, start=1):
        yield from _exercise(number, exercise, style)
    yield "</section>"


def _meters(groove: Groove) -> str:
    return ", ".join(dict.fromkeys(str(bar.meter) for bar in groove.bars))


def _tempo(groove: Groove, style: Style) -> str:
    return style.say("facts tempo", beat=style.say.value(groove.tempo.beat), bpm=groove.tempo.bpm)


def _exercise(number: int, exercise: Exercise, style: Style) -> Iterator[str]:
    yield f"<h3>{number}. {escape(exercise.title)}</h3>"
    yield from _prose(exercise.task)
    tempos = style.say("text edition tempos", tempos=", ".join(map(str, exercise.tempi)))
    yield f"<p>{escape(tempos)}. {escape(style.say('text edition repeats', n=exercise.repeats))}</p>"
    yield from _bars(exercise.passage.groove, style, 4, exercise.said)


def _bars(groove: Groove, style: Style, level: int, said: Iterable[tuple[Fraction, str]] = ()) -> Iterator[str]:
    if groove.repeats:
        first = 0 if groove.pickup else 1
        bars = ", ".join(str(index + first) for index in groove.played_bars)
        yield f"<p>{escape(style.say('text edition order', bars=bars))}</p>"
    for bar in spoken(groove, style, style.say, said):
        yield f"<h{level}>{escape(bar_name(bar, style.say))}</h{level}>"
        yield from _moments(bar, style)


def _moments(bar: SpokenBar, style: Style) -> Iterator[str]:
    if not bar.moments:
        yield f"<p>{escape(style.say('spoken silence'))}</p>"
        return
    yield "<ul>"
    for moment in bar.moments:
        yield f"<li>{escape(moment.when(style.say))}: {escape(', '.join(moment.strokes))}</li>"
    yield "</ul>"


def _prose(text: Prose) -> Iterator[str]:
    for block in text:
        yield f"<p>{escape(block.mark + ' ') if block.mark else ''}{_runs(block)}</p>"


def _runs(block: Block) -> str:
    return "".join(_WEIGHTS[run.weight].format(escape(run.text)) for run in block.runs)
