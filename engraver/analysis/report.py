"""Analysis: what can be said about a groove, one field a finding. Lengths in steps are whole numbers of ``step``."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from engraver.analysis.limbs import Assignment, Rate
from engraver.rhythm import Instrument, Span


@dataclass(frozen=True, slots=True)
class Lane:
    """The strokes that one layer gives one instrument."""

    layer: str
    instrument: Instrument


@dataclass(frozen=True, slots=True)
class StatedCells:
    """The author's ``cells:``, in steps of the groove; ``start`` counts from the start of the phrase."""

    length: int
    start: int = 0


@dataclass(frozen=True, slots=True)
class Edit:
    """One difference between a cell and its base: at ``step`` (0 the first) the mark is ``mark``, not ``was``.

    Marks are those of the pattern lines; ``-`` is silence, ``(x-x)1`` strokes that stand between two steps.
    """

    step: int
    instrument: Instrument
    was: str
    mark: str


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of the full strokes. ``strokes``: a pattern line for each instrument that sounds in it.

    ``base``: the letter it is a changed form of (its own where it is none), ``edits`` what makes the difference.
    """

    letter: str
    count: int
    strokes: tuple[tuple[Instrument, str], ...]
    base: str
    edits: tuple[Edit, ...]
    first: Fraction  # onset of its first appearance


@dataclass(frozen=True, slots=True)
class CellReading:
    """Cells of ``length`` steps from ``start``, over again every ``phrase_steps``; one letter a cell of ONE phrase.

    ``skeleton`` leaves out ghosts and ornaments, ``full`` has all strokes. ``remainder`` steps are left at the end of
    the phrase; ``remainder_begins`` are the letters (full) of the cells they are the beginning of.
    ``covered``: indexes of cells that a layer silences in part (a fill lies over them); they keep the letter of the
    figure that the fill hides. ``passes``: 1, or, where the groove comes to its phrase again with other letters, the
    number of phrases that the letters go through one after another. ``places``: the step, counted from the start of
    the groove, at which each letter's cell begins.
    """

    length: int
    phrase_steps: int
    start: int
    sure: bool
    stated: bool  # the author said so
    gain_bits: float | None
    runner_up: int | None
    skeleton: tuple[str, ...]
    full: tuple[str, ...]
    remainder: int
    remainder_begins: tuple[str, ...]
    cells: tuple[Cell, ...]
    covered: tuple[int, ...] = ()
    places: tuple[int, ...] = ()
    passes: int = 1
    head: int = 0  # the step of the cell on which the most weight falls


@dataclass(frozen=True, slots=True)
class Realign:
    """Cell and bar line meet again after ``lcm`` steps: ``bars`` bars, ``cells`` cells."""

    lcm: int
    bars: int
    cells: int


@dataclass(frozen=True, slots=True)
class CrossRhythm:
    """``ratio`` = (m, n): m strokes of ``a`` in the time of n of ``b``, which may be "beat". Lengths in steps.

    One cycle is ``cycle_steps`` long and begins where both meet, or with a stroke of ``a`` if they never do.
    The phrase holds ``whole_cycles`` of it and then ``cut_off_steps``. ``spacing`` is a step count from stroke to
    stroke, ``phase`` the first strokes' distance from the start of the phrase, ``turns`` and ``left_over`` how
    many whole spacings the phrase holds and what is left, each for a and b. ``accents``: the accents alone are meant.
    """

    a: str
    b: str
    ratio: tuple[int, int]
    cycle_steps: int
    coincidences: int
    resultant: tuple[int, ...]
    whole_cycles: int
    cut_off_steps: int
    spacing: tuple[int, int] = (0, 0)
    phase: tuple[int, int] = (0, 0)
    turns: tuple[int, int] = (0, 0)
    left_over: tuple[int, int] = (0, 0)
    accents: tuple[bool, bool] = (False, False)


@dataclass(frozen=True, slots=True)
class StickingLikeness:
    """The rudiment whose hands are most like the letters: ``distance`` letters of ``over`` differ.

    The rudiment is read from its stroke number ``rotation`` (0 the first) and round; either letter may be the right.
    """

    name: str
    distance: int
    over: int
    rotation: int


@dataclass(frozen=True, slots=True)
class Sequence:
    """The order of the letters. ``centre``: index of the mirror's middle letter, x.5 between two; None where none.

    ``mirror_continuation``: the fewest letters that, put after the sequence, make it a mirror (empty if it is one, or
    if no mirror is worth telling: it must hold three letters, two of them different). ``palindrome`` is the plain
    fact, true of A A A too. ``period``: the smallest p for which every letter is that of p places before.
    """

    period: int
    palindrome: bool
    centre: Fraction | None
    mirror_continuation: tuple[str, ...]
    swapped_halves: bool = False  # the second half is the first with its two letters exchanged
    turn: int = 0  # the fewest places after which the sequence, turned round on itself, is the same
    sticking: StickingLikeness | None = None


@dataclass(frozen=True, slots=True)
class CellChange:
    """What a layer did to one cell: ``index`` in the letters of the reading."""

    index: int
    was: str
    letter: str
    edits: tuple[Edit, ...]


@dataclass(frozen=True, slots=True)
class LayerEffect:
    """The letters before and after a layer was added; one letter is one form throughout, and the last effect ends on
    the letters of the reading. A cell that the layer leaves as it was keeps its letter."""

    layer: str
    before: tuple[str, ...]
    after: tuple[str, ...]
    changes: tuple[CellChange, ...]


@dataclass(frozen=True, slots=True)
class EuclideanForm:
    """k strokes spread over n steps as evenly as can be; the pattern begins at step ``rotation`` of E(k, n)."""

    k: int
    n: int
    rotation: int


@dataclass(frozen=True, slots=True)
class Measures:
    """Published measures of the figure's onsets (ghosts left out), cyclic over ``over`` steps; None: not defined.

    ``evenness``: the normalised pairwise variability of the intervals, 0 for a pulse.
    """

    over: int
    longuet_higgins_lee: int | None
    wnbd: Fraction | None
    keith: int | None
    off_beatness: int
    pressing: Fraction | None
    evenness: Fraction | None
    euclidean: EuclideanForm | None


class RegroupReason(Enum):
    CELL = "each cell is a bar"
    SEQUENCE = "the letters come back with every bar"
    NEAREST = "nearest in length to the written bar"
    BEATS = "four cells make four even beats"


@dataclass(frozen=True, slots=True)
class Regrouping:
    """``cells`` joined to a bar of ``steps``: whole ``bars``, then ``cells_over`` cells and the remainder."""

    cells: int
    steps: int
    bars: int
    cells_over: int
    remainder: int
    reason: RegroupReason


@dataclass(frozen=True, slots=True)
class Grouping:
    """A bar's steps as a sum of twos and threes, and what that costs to describe: the fewer bits, the likelier."""

    parts: tuple[int, ...]
    bits: float


@dataclass(frozen=True, slots=True)
class Analysis:
    """``steps`` is the whole groove in steps; ``phrase`` the span that starts over.

    ``limbs``: who plays what. ``meter_lanes`` say where the bar is (a backbeat) and are no part of the figure;
    ``fills`` are layers laid over it.
    """

    step: Fraction
    steps: int
    phrase: Span
    figure: tuple[Lane, ...]
    timekeepers: tuple[Lane, ...]
    cells: CellReading | None
    realign: Realign | None
    cross_rhythms: tuple[CrossRhythm, ...]
    skeleton_sequence: Sequence | None
    full_sequence: Sequence | None
    limbs: Assignment
    meter_lanes: tuple[Lane, ...] = ()
    fills: tuple[str, ...] = ()
    cell_against_beat: CrossRhythm | None = None
    layer_effects: tuple[LayerEffect, ...] = ()
    measures: Measures | None = None
    rates: tuple[Rate, ...] = ()
    regroupings: tuple[Regrouping, ...] = ()
    groupings: tuple[Grouping, ...] = ()  # of one bar, where all bars are alike: the best and those nearly as good
