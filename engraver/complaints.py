"""What LilyPond says of a book, told in the author's places: its complaints in, problems of the YAML files out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from engraver import definition, lilypond
from engraver.engraving import Complaint, Engraved
from engraver.errors import EngravingError, Position, Problem
from engraver.planning import Chapter


def refuse(made: Iterable[Chapter], results: Mapping[str, Engraved]) -> None:
    """Raises one EngravingError with every source that LilyPond refused, and what it said of it."""
    by_name = {chapter.plan.name: chapter for chapter in made}
    problems: list[Problem] = []
    for name, result in results.items():
        if result.failure:
            place = title_place(by_name.get(name))
            problems.append(Problem(place, f"{name} could not be engraved: {result.failure}"))
            problems.extend(_problems(by_name.get(name), result))
    if problems:
        raise EngravingError(problems)


def warnings(made: Iterable[Chapter], results: Mapping[str, Engraved]) -> tuple[Problem, ...]:
    """Of what was engraved now and of what was engraved earlier."""
    by_name = {chapter.plan.name: chapter for chapter in made}
    return tuple(problem for name, result in results.items() for problem in _problems(by_name.get(name), result))


def title_place(chapter: Chapter | None) -> Position | None:
    """The place of a complaint about a chapter as a whole; none for the pages around the chapters."""
    return chapter.definition.groove.position if chapter else None


def _problems(chapter: Chapter | None, result: Engraved) -> list[Problem]:
    return [_problem(chapter, result, complaint) for complaint in result.complaints]


def _problem(chapter: Chapter | None, result: Engraved, complaint: Complaint) -> Problem:
    lines = result.job.text.split("\n")
    line = lines[complaint.line - 1] if 0 < complaint.line <= len(lines) and not complaint.file else ""
    origin = lilypond.origin(line)
    if chapter is None or origin is None:
        return Problem(title_place(chapter), f"{result.job.name}: LilyPond says: {complaint}")
    kit = [i for i in chapter.plan.groove.instruments if chapter.source.voice(i) is origin.voice]
    place = definition.origin(chapter.definition.groove, origin.span, kit)
    bar = f"bar {origin.bar}" if origin.bar else "the pickup"
    return Problem(place, f"{origin.part}, {bar}, {origin.voice.value} voice: LilyPond says: {complaint.message}")
