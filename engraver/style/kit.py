"""The kit: one row an instrument, with everything that staff, sound and key need to know of it.

Rows come from ``kit.yaml`` beside this file and from the author's style.yaml. Nothing else knows an instrument by name.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import Enum
from importlib import resources

from engraver.rhythm import Instrument, Limbs, Pedal, Place, Side
from engraver.style.shipped import read_shipped
from engraver.style.words import Words, words


class Stem(Enum):
    """Which way the stems of an instrument go where there are two voices."""

    UP = "up"  # the upper voice
    DOWN = "down"


@dataclass(frozen=True, slots=True)
class KitRow:
    """Where an instrument stands and how it looks and sounds.

    ``position``: staff position, 0 the middle line, +1 for each line or space upwards.
    ``head``: normal, x, diamond, triangle, slash or circle x. ``sign``: open, half open, closed, or none ("").
    ``limbs``: who strikes it. ``stem``: its voice; left out, hands have stems up and feet down.
    ``key``: General MIDI percussion key.
    ``label``: how the notation key calls it. ``aliases``: other names an author may write.
    ``across`` and what follows: where it stands on the set, as in `Place`.
    """

    instrument: Instrument
    label: str
    position: int
    limbs: Limbs
    key: int
    head: str = "normal"
    sign: str = ""
    aliases: tuple[str, ...] = ()
    stem: Stem | None = None
    across: int | None = None
    surface: str = ""
    foot: Side | None = None
    pedal: Pedal | None = None
    lead: bool = False
    small: bool = False

    @property
    def stems(self) -> Stem:
        return self.stem or (Stem.UP if self.limbs is Limbs.HANDS else Stem.DOWN)

    @property
    def place(self) -> Place:
        surface = self.surface or self.instrument.name
        return Place(self.limbs, self.across, surface, self.foot, self.pedal, self.lead, self.small)


@dataclass(frozen=True, slots=True)
class Kit:
    rows: tuple[KitRow, ...]
    _by_name: Mapping[str, KitRow] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_by_name", {row.instrument.name: row for row in self.rows})

    def __getitem__(self, instrument: Instrument) -> KitRow:
        return self._by_name[instrument.name]

    def __contains__(self, instrument: Instrument) -> bool:
        return instrument.name in self._by_name

    def places(self) -> Mapping[Instrument, Place]:
        """Where everything stands."""
        return {row.instrument: row.place for row in self.rows}

    def names(self) -> Mapping[str, Instrument]:
        """Every name an author may write, aliases too."""
        return {name: row.instrument for row in self.rows for name in (row.instrument.name, *row.aliases)}

    def with_rows(self, rows: Iterable[KitRow]) -> Kit:
        """These rows laid over the kit: an instrument of the same name is replaced, a new one is added."""
        new = {row.instrument: row for row in rows}
        kept = tuple(new.pop(row.instrument, row) for row in self.rows)
        return Kit(kept + tuple(new.values()))


def read_rows(text: str) -> tuple[KitRow, ...]:
    """Rows of our own kit file (trusted: it ships with the program)."""
    return tuple(_row(name, fields) for name, fields in read_shipped(text).items())


def _row(name: str, fields: Mapping[str, object]) -> KitRow:
    return KitRow(
        instrument=Instrument(name),
        label=name,
        position=int(str(fields["position"])),
        limbs=Limbs(fields["limbs"]),
        key=int(str(fields["key"])),
        head=str(fields.get("head", "normal")),
        sign=str(fields.get("sign", "")),
        aliases=tuple(str(alias) for alias in _list(fields.get("aliases"))),
        stem=Stem(fields["stem"]) if "stem" in fields else None,
        across=int(str(fields["across"])) if "across" in fields else None,
        surface=str(fields.get("surface", "")),
        foot=_FEET[str(fields["foot"])] if "foot" in fields else None,
        pedal=Pedal(fields["pedal"]) if "pedal" in fields else None,
        lead=bool(fields.get("lead", False)),
        small=bool(fields.get("small", False)),
    )


_FEET = {"right": Side.RIGHT, "left": Side.LEFT}


def _list(value: object) -> list[object]:
    return value if isinstance(value, list) else []


def standard_kit(say: Words | None = None) -> Kit:
    """The published drum-set positions, labelled in these words; in English if there are none."""
    rows = read_rows(resources.files(__package__).joinpath("kit.yaml").read_text("utf-8"))
    say = say or words("en")
    return Kit(tuple(replace(row, label=say.label(row.instrument)) for row in rows))
