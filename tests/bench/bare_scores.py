"""The staves of a chapter as a LilyPond source with nothing of ours about them: what the notes alone cost.

Same notes, heads, places, voices, beams and breaks; LilyPond's own fonts, spacing and page. The words that our staves
are written with are defined here as plainly as can be.
"""

from __future__ import annotations

from engraver.lilypond import ChapterSource
from engraver.lilypond.chapter import kit_rows

HEADS = {
    "normal": "()",
    "x": "cross",
    "diamond": "harmonic-black",
    "triangle": "do",
    "slash": "slash",
    "circle x": "xcircle",
}
SIGNS = {"": "#f", "open": "open", "half open": "halfopen", "closed": "stopped"}
WORDS = r"""
upper = \voiceOne
lower = \voiceTwo
ghost = #(define-music-function (note) (ly:music?) #{ \parenthesize #note #})
fresh = #(define-music-function (note) (ly:music?) note)
inCell = #(define-music-function (name note) (string? ly:music?) note)
sectionName = #(define-music-function (name) (string?) #{ \sectionLabel #name #})
playedTimes = #(define-music-function (count) (string?) #{ \textEndMark #count #})
buzz = {}
choke = #(make-music 'TextScriptEvent 'text ",")
mayTurn = {}
partedRight = \set stemRightBeamCount = #1
partedLeft = \set stemLeftBeamCount = #1
"""


def bare_source(chapter: ChapterSource) -> str:
    """``\\score`` after ``\\score`` in the order of the chapter."""
    rows = kit_rows(chapter.style.kit, chapter.names)
    names = " ".join(f"({name} . {name})" for name, *_ in rows)
    table = " ".join(f"({name} {HEADS[head]} {SIGNS[sign]} {position})" for name, head, sign, position, *_ in rows)
    head = [
        '\\version "2.24.0"',
        f"#(set! drumPitchNames (append '({names}) drumPitchNames))",
        f"\\layout {{ \\context {{ \\DrumStaff drumStyleTable = #(alist->hash-table '({table})) }} }}",
        WORDS,
    ]
    scores = [f"\\score {{ \\new DrumStaff <<\n{staff}\n>> \\layout {{ }} }}" for staff in chapter.staves.values()]
    return "\n".join([*head, *scores, ""])
