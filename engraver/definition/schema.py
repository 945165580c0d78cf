"""The keys of a groove file, and the definitions they are read into. A new key is a new field here.

Reader and JSON Schema are both made from these declarations.
"""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import ClassVar

from engraver.definition.bars import Numbers, NumbersKind
from engraver.definition.exercise_kinds import ExerciseKind
from engraver.definition.keys import ByShape, Json, ListOf, Reading, Record, Written, key
from engraver.definition.kinds import SWUNG, VALUE, YES_NO, Choice, InstrumentName, Line, Whole
from engraver.definition.lanes import STICKING_LINE, Lane, LaneKind, StickingContent, StrokesKind
from engraver.definition.meters import BPM, METERS, TEMPO, MeterRange, TempoDefinition
from engraver.definition.prose import ProseText
from engraver.definition.source import Node
from engraver.errors import Position
from engraver.prose import Prose
from engraver.rhythm import Instrument, Limbs, Meter, Role

MOST_BARS = 64
COMMON_TIME = (MeterRange(Meter.of(4, 4), Position(Path(), 1, 1)),)

EXERCISE_KIND = Choice({kind.value: kind for kind in ExerciseKind}, "a kind of exercise")

# Who is silenced: None stands for every instrument.
SILENCED = ByShape(
    scalar=Choice({"all": None}, "all or a list of instruments"), items=ListOf(InstrumentName(), least=1)
)


@dataclass(frozen=True, slots=True)
class _StickingRow:
    """Reads a lane of letters."""

    kind: LaneKind = LaneKind(StickingContent, STICKING_LINE)

    def read(self, node: Node, reading: Reading) -> Lane:
        return Lane(self.kind.read(node, reading), node.position)

    def json(self) -> Json:
        return self.kind.json()


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerDefinition(Written):
    """Strokes that are learnt together. ``silence`` None with ``silences_all``: every instrument."""

    name: str = key(Line(80), "what the layer is called")
    role: Role | None = key(Choice({role.value: role for role in Role}, "a role"), "what the layer is for", None)
    bars: Numbers | None = key(NumbersKind(), "the bars it lies in", None)
    beats: Numbers | None = key(NumbersKind("beats"), "the beats of these bars it lies in", None)
    silence: tuple[Instrument, ...] | None = key(SILENCED, "instruments taken away before it is laid in", ())
    replace: bool = key(YES_NO, "its strokes take the place of earlier ones they meet", False)
    step: Fraction | None = key(VALUE, "the note value of one mark", None)
    strokes: tuple[tuple[Instrument, Lane], ...] = key(StrokesKind(), "a pattern for each instrument", ())
    noun: ClassVar[str] = "layer"


@dataclass(frozen=True, slots=True, kw_only=True)
class StickingDefinition(Written):
    hands: Lane | None = key(_StickingRow(), "R, L or B where a hand strikes", None)
    feet: Lane | None = key(_StickingRow(), "R, L or B where a foot strikes", None)
    noun: ClassVar[str] = "sticking"

    @property
    def rows(self) -> tuple[tuple[Limbs, Lane], ...]:
        both = ((Limbs.HANDS, self.hands), (Limbs.FEET, self.feet))
        return tuple((limbs, lane) for limbs, lane in both if lane)


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionDefinition(Written):
    name: str = key(Line(80), "what the section is called")
    bars: Numbers = key(NumbersKind(whole=True), "its bars")
    noun: ClassVar[str] = "section"


@dataclass(frozen=True, slots=True, kw_only=True)
class RepeatDefinition(Written):
    bars: Numbers = key(NumbersKind(whole=True), "the bars that are repeated, endings included")
    times: int = key(Whole(2, 99, "a count"), "how often they are played in all", 2)
    endings: tuple[Numbers, ...] = key(ListOf(NumbersKind(whole=True), least=1), "the bars of each ending", ())
    noun: ClassVar[str] = "repeat"


@dataclass(frozen=True, slots=True, kw_only=True)
class CellsDefinition(Written):
    """``length`` and ``start`` count steps of the groove, ``start`` from 1 at bar 1."""

    length: int = key(Whole(1, 4096, "a number of steps"), "steps in a cell")
    start: int = key(Whole(1, 4096, "a step"), "the step, from 1, on which the first cell begins", 1)
    noun: ClassVar[str] = "description of cells"


@dataclass(frozen=True, slots=True, kw_only=True)
class TempoSteps(Written):
    """Tempos to climb: ``start`` to ``goal``, each ``by`` faster."""

    start: int = key(BPM, "the first tempo", name="from")
    goal: int = key(BPM, "the last tempo", name="to")
    by: int = key(Whole(1, 100, "an increment"), "how much faster each time", 4)
    noun: ClassVar[str] = "climb of tempos"


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseDefinition(Written):
    """A window of the groove. Empty ``layers`` or ``instruments``: all of them.

    With a ``kind`` it stands for the exercises of that kind that the program makes of the groove.
    """

    kind: ExerciseKind | None = key(EXERCISE_KIND, "a kind of exercise that is made from the groove", None)
    title: str = key(Line(), "what the exercise is called", "")
    text: Prose = key(ProseText(), "one sentence of instruction", ())
    layers: tuple[str, ...] = key(ListOf(Line(80), least=1), "the layers that sound", ())
    instruments: tuple[Instrument, ...] = key(ListOf(InstrumentName(), least=1), "the instruments that sound", ())
    bars: Numbers | None = key(NumbersKind(whole=True), "the bars that are looped", None)
    beats: Numbers | None = key(NumbersKind("beats", whole=True), "the beats of one bar that are looped", None)
    after_silence: bool = key(
        Choice({"before": False, "after": True}, "before or after"),
        "whether it sounds before or after what a layer silences",
        True,
        name="silence",
    )
    tempo: TempoSteps | None = key(Record(TempoSteps), "tempos to climb", None)
    repeats: int | None = key(Whole(1, 99, "a count"), "how often it is played", None)
    noun: ClassVar[str] = "exercise"


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderDefinition(Written):
    """What the ladder that the program makes may hold."""

    without: tuple[ExerciseKind, ...] = key(ListOf(EXERCISE_KIND, least=1), "kinds of exercise that are left out", ())
    most: int | None = key(Whole(1, 40, "a number of exercises"), "how many exercises it has at most", None)
    noun: ClassVar[str] = "ladder"


@dataclass(frozen=True, slots=True, kw_only=True)
class CardDefinition(Written):
    """Something to listen for, on the opening page."""

    title: str = key(Line(80), "what to listen for")
    text: Prose = key(ProseText(1000), "a sentence or two", ())
    noun: ClassVar[str] = "card"


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionDefinition(Written):
    question: Prose = key(ProseText(2000), "what the student is asked")
    answer: Prose = key(ProseText(2000), "what stands at the back")
    noun: ClassVar[str] = "question"


@dataclass(frozen=True, slots=True, kw_only=True)
class GrooveDefinition(Written):
    """A groove file. ``to_groove`` makes the groove of it."""

    title: str = key(Line(), "the name of the groove")
    subtitle: str = key(Line(), "a line under the title", "")
    text: Prose = key(ProseText(), "what the author says about it", ())
    idea: str = key(Line(), "whose idea the groove is", "", name="origin")
    meter: tuple[MeterRange, ...] = key(METERS, "the time signature, or one for ranges of bars", COMMON_TIME)
    tempo: TempoDefinition = key(TEMPO, "beats a minute, such as 96")
    step: Fraction = key(VALUE, "the note value of one mark", Fraction(1, 16))
    bars: int = key(Whole(1, MOST_BARS, "a number of bars"), "how many bars there are", 1)
    phrase: int | None = key(Whole(1, MOST_BARS, "a number of bars"), "bars after which all starts over", None)
    pickup: int = key(Whole(0, 256, "a number of steps"), "steps before bar 1", 0)
    swing: Fraction | None = key(SWUNG, "the note value that is swung", None)
    layers: tuple[LayerDefinition, ...] = key(
        ListOf(Record(LayerDefinition), least=1), "what is played, in teaching order"
    )
    sticking: StickingDefinition | None = key(Record(StickingDefinition), "which hand or foot strikes", None)
    sections: tuple[SectionDefinition, ...] = key(ListOf(Record(SectionDefinition)), "runs of bars with a name", ())
    repeats: tuple[RepeatDefinition, ...] = key(ListOf(Record(RepeatDefinition)), "bars played several times", ())
    cells: CellsDefinition | None = key(Record(CellsDefinition), "the repeating cells; left out, they are found", None)
    exercises: tuple[ExerciseDefinition, ...] = key(
        ListOf(Record(ExerciseDefinition)), "the exercises; left out, the ladder is made", ()
    )
    ladder: LadderDefinition | None = key(Record(LadderDefinition), "what the ladder that is made may hold", None)
    listen: tuple[CardDefinition, ...] = key(ListOf(Record(CardDefinition), most=3), "what to listen for", ())
    questions: tuple[QuestionDefinition, ...] = key(
        ListOf(Record(QuestionDefinition)), "questions, answered at the back", ()
    )
    path: Path = field(default=Path("groove.yaml"))
    noun: ClassVar[str] = "groove"

    @property
    def name(self) -> str:
        """The name of its file, which book.yaml and the command line use."""
        return self.path.stem
