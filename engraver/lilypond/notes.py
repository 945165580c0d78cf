"""Names for notes: one for each instrument, touch and ornament, so that sound and ink can each be told apart.

A name is letters only, since LilyPond's drum mode reads nothing else.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engraver.rhythm import Instrument, Kind, Ornament, Stroke, Touch


@dataclass(frozen=True, slots=True)
class Sound:
    """What a note name stands for; ``grace`` is a grace stroke on the instrument."""

    instrument: Instrument
    touch: Touch = Touch.PLAIN
    ornament: Ornament | None = None
    grace: bool = False

    @classmethod
    def of(cls, stroke: Stroke) -> Sound:
        return cls(stroke.instrument, stroke.touch, stroke.ornament)

    @property
    def struck(self) -> Kind:
        """The kind of stroke, as it is told of a stroke."""
        return self.instrument, self.touch, self.ornament

    @property
    def order(self) -> tuple[str, str, str, bool]:
        return (self.instrument.name, self.touch.value, self.ornament.value if self.ornament else "", self.grace)


def sounds_of(strokes: Iterable[Stroke]) -> tuple[Sound, ...]:
    """Every sound that these strokes need, grace strokes too, in a fixed order."""
    struck = {Sound(*kind) for kind in {stroke.kind for stroke in strokes}}
    # a double may be written out as two plain strokes
    halves = {Sound(s.instrument, t) for s in struck if s.ornament is Ornament.DOUBLE for t in (s.touch, _second(s))}
    graces = {Sound(s.instrument, grace=True) for s in struck if s.ornament and s.ornament.graces}
    return tuple(sorted(struck | halves | graces, key=lambda sound: sound.order))


def _second(double: Sound) -> Touch:
    return Touch.PLAIN if double.touch is Touch.ACCENT else double.touch


def note_names(sounds: Iterable[Sound]) -> Mapping[Sound, str]:
    """``snare``, ``snareGhost``, ``openHiHatAccent``, ``snareFlam``, ``snareGrace`` ..."""
    wanted: dict[str, dict[Sound, str]] = {}
    for sound in sorted(sounds, key=lambda sound: sound.order):
        wanted.setdefault(sound.instrument.name, {})[sound] = _ending(sound)
    stems: set[str] = set()
    names: dict[Sound, str] = {}
    for instrument, endings in wanted.items():
        stem = _stem(instrument)
        # an author's own "snare ghost" would be called what a ghost note on the snare drum is
        while stem in stems or not {stem + ending for ending in endings.values()}.isdisjoint(names.values()):
            stem += "X"
        stems.add(stem)
        names |= {sound: stem + ending for sound, ending in endings.items()}
    return names


def _ending(sound: Sound) -> str:
    if sound.grace:
        return "Grace"
    touch = "" if sound.touch is Touch.PLAIN else sound.touch.value.title()
    return touch + (sound.ornament.value.title() if sound.ornament else "")


def _stem(instrument: str) -> str:
    """Its letters; never so few that they could be a rest or a skip."""
    letters = unicodedata.normalize("NFKD", instrument).encode("ascii", "ignore").decode()
    words = re.findall(r"[A-Za-z]+", letters) or ["sound"]
    stem = words[0].lower() + "".join(word.title() for word in words[1:])
    return stem if len(stem) > 2 else f"drum{stem.title()}"
