"""A chapter's source made to tell what it sounds like and what its ink is.

In: the source of the chapter's pages, unchanged. Out: the same text, so the same pages, with the reading of the ink
before it (`ink.ily`, `drawn.ily`) and the music of every passage once more after it, to be played (`sound.ily`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from engraver.errors import Problem, ProofError
from engraver.lilypond.chapter import ChapterSource
from engraver.lilypond.notes import Sound
from engraver.lilypond.source import Source
from engraver.style import templates_folder

END = 127  # the MIDI key that says where a passage ends


def source(chapter: ChapterSource) -> Source:
    """The text of an engraving job. Raises ProofError if notes cannot be told apart or a passage is missing."""
    lost = [name for name, staff in chapter.staves.items() if chapter.text.count(staff) != 1]
    if lost:
        hint = "the page design's chapter template has to print every passage as it is, and once"
        raise ProofError(Problem(None, f"the pages do not hold {', '.join(lost)} once", hint))
    rows = " ".join(f"({name} . {key})" for name, key in _keys_of_names(chapter).items())
    played = "".join(_score(index, staff) for index, staff in enumerate(chapter.staves.values()))
    return Source(f"{read_back(chapter.text)}{_part('sound.ily')}\\soundKeys #'({rows})\n{played}")


def read_back(text: str) -> Source:
    """Any pages, with the reading of their ink before them."""
    return Source(_before() + text)


def keys(names: Mapping[Sound, str]) -> Mapping[int, Sound]:
    """A key for each note name, in their order. Raises ProofError if there are too many or two share a name."""
    if len(set(names.values())) < len(names):
        twice = sorted({name for name in names.values() if [*names.values()].count(name) > 1})
        hint = "name the author's own instruments so that they cannot be taken for a touch or an ornament of another"
        raise ProofError(Problem(None, f"two different notes are both called {', '.join(twice)}", hint))
    if len(names) > END:
        hint = f"split the groove into chapters of at most {END} different notes"
        raise ProofError(Problem(None, f"{len(names)} different notes cannot be told apart in sound", hint))
    return dict(enumerate(names))


def _keys_of_names(chapter: ChapterSource) -> Mapping[str, int]:
    return {chapter.names[sound]: key for key, sound in keys(chapter.names).items()}


def _score(index: int, staff: Source) -> str:
    """A whole rest comes first: grace notes sound before the stroke, and time before the beginning would be lost."""
    return (
        f'\\score {{ \\header {{ midititle = "{index}" }}\n'
        f"\\unfoldRepeats \\soundOf \\new DrumStaff {{ s1 <<\n{staff}\n>> \\endOfSound }}\n"
        "\\midi { \\context { \\DrumStaff drumPitchTable = #sound-keys } } }\n"
    )


def _before() -> str:
    return _part("ink.ily") + _part("drawn.ily")


def _part(name: str) -> str:
    return (templates_folder() / "proof" / name).read_text("utf-8")


@dataclass(frozen=True, slots=True)
class Lines:
    """Which lines of the proof's source hold the music of which passage."""

    first: Mapping[str, int]
    last: Mapping[str, int]

    def passage(self, line: int) -> str | None:
        return next((name for name in self.first if self.first[name] <= line <= self.last[name]), None)


def lines(chapter: ChapterSource) -> Lines:
    """Of the pages, not of the music that is only played."""
    before = _before().count("\n")
    first = {name: before + chapter.text[: chapter.text.index(s)].count("\n") + 1 for name, s in chapter.staves.items()}
    return Lines(first, {name: first[name] + staff.count("\n") for name, staff in chapter.staves.items()})
