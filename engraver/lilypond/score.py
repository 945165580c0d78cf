"""A `Score` as LilyPond text, one bar of one voice a line. No decisions about music."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engraver.lilypond.items import Item, items_text
from engraver.lilypond.source import Source, quoted
from engraver.lilypond.staff import Staff, comment
from engraver.notation import Note, Rest, Score, StaffBar, TupletGroup, Voice, VoiceName
from engraver.rhythm import Meter


def staff_text(score: Score, staff: Staff) -> Source:
    """Each voice as a DrumVoice context."""
    return Source("\n".join(_voice(score, staff, voice.name) for voice in score.bars[0].voices))


def _voice(score: Score, staff: Staff, name: VoiceName) -> str:
    alone = len(score.bars[0].voices) == 1
    lines = [f"      \\new DrumVoice {{ \\{'single' if alone else name.value} \\drummode {{"]
    if staff.repeats > 1:
        lines.append(f'        \\bar ".|:" \\repeat volta {staff.repeats} {{')
    in_endings = False
    for run in _runs(score, staff):
        bar, last = score.bars[run[0]], score.bars[run[-1]]
        in_endings = in_endings or bool(bar.ending)
        lines.extend(_run(score, staff, name, run))
        if last.closes_repeat:
            lines.append("        " + _close(last, staff, name, in_endings))
            in_endings = False
    if staff.repeats > 1:
        lines.append("        }")
    if staff.ending and name is VoiceName.UPPER:
        lines.append(f'        \\bar "{staff.ending}"')
    lines.append("      } }")
    return "\n".join(lines)


def _runs(score: Score, staff: Staff) -> Iterator[range]:
    """Indexes of bars; in a run of more than one the first is written and repeat signs stand for the others.

    No line begins with a repeat sign: nobody should have to look for what it repeats (common practice, no source).
    """
    first = 0
    for index in range(1, len(score.bars) + 1):
        if index == len(score.bars) or not score.bars[index].like_last or index - 1 in staff.breaks:
            yield range(first, index)
            first = index


def _close(last: StaffBar, staff: Staff, name: VoiceName, in_endings: bool) -> str:
    """Endings say by their numbers how often they are played; else the count stands over the sign."""
    if in_endings:
        return "} }"
    count = staff.counts.get(last.closes_repeat, "")
    return f"}} \\playedTimes {quoted(count)}" if count and name is VoiceName.UPPER else "}"


def _run(score: Score, staff: Staff, name: VoiceName, run: range) -> Iterator[str]:
    bar = score.bars[run[0]]
    end = _line_end(staff, run[-1]) if name is VoiceName.UPPER and run[-1] + 1 < len(score.bars) else ""
    yield from _openings(bar, name is VoiceName.UPPER, run[0])
    if len(run) == 1:
        yield _bar(staff, name, run[0], bar, end)
        return
    yield f"        \\repeat percent {len(run)} {{"
    yield _bar(staff, name, run[0], bar, "")
    yield f"        }}{end}"


def _bar(staff: Staff, name: VoiceName, index: int, bar: StaffBar, end: str) -> str:
    voice = next(voice for voice in bar.voices if voice.name is name)
    sync = "\\grace s8 " if _any_grace_at_start(bar) and not _begins_with_grace(voice) else ""
    music = _silence(voice, bar) if voice.is_silent else items_text(voice.items, staff, name)
    return f"        {sync}{music} |{end}  {comment(staff, index, bar, name)}"


def _line_end(staff: Staff, index: int) -> str:
    return (" \\break" if index in staff.breaks else "") + (" \\mayTurn" if index in staff.turns else "")


def _silence(voice: Voice, bar: StaffBar) -> str:
    shown = any(isinstance(rest, Rest) and rest.visible for rest in _flat(voice.items))
    return f"{'R' if shown else 's'}1*{bar.span.length}"


def _openings(bar: StaffBar, upper: bool, index: int) -> Iterator[str]:
    if bar.opens_repeat:
        # LilyPond draws the sign itself but at the start; elsewhere ours would hide the end of a repeat that meets it
        sign = "" if index else '\\bar ".|:" '
        yield f"        {sign}\\repeat volta {bar.opens_repeat} {{"
    if bar.ending:
        yield "        } \\alternative { {" if bar.ending == 1 else "        } {"
    if upper:
        if bar.new_meter:
            yield f"        {_meter(bar.meter)}"
        if bar.partial:
            yield f"        \\partial 1*{bar.span.length}"
        if bar.section:
            yield f"        \\sectionName {quoted(bar.section)}"


def _meter(meter: Meter) -> str:
    if meter.additive:
        return f"\\compoundMeter #'(({' '.join(map(str, meter.beats))} {meter.unit}))"
    return f"\\time {meter.count}/{meter.unit}"


def _begins_with_grace(voice: Voice) -> bool:
    first = next(_flat(voice.items), None)
    return isinstance(first, Note) and bool(first.graces)


def _any_grace_at_start(bar: StaffBar) -> bool:
    return any(_begins_with_grace(voice) for voice in bar.voices)


def _flat(items: Sequence[Item]) -> Iterator[Note | Rest]:
    for item in items:
        if isinstance(item, TupletGroup):
            yield from _flat(item.items)
        else:
            yield item
