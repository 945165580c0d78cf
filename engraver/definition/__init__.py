"""YAML folder in; definitions, style and grooves out; every fault with its place."""

from engraver.definition.bars import Numbers
from engraver.definition.book_file import (
    BackMatter,
    BookDefinition,
    ChapterDefinition,
    FrontMatter,
    PartDefinition,
)
from engraver.definition.build import origin, to_groove
from engraver.definition.exercise_kinds import ExerciseKind
from engraver.definition.jsonschema import json_schema
from engraver.definition.read import check, parse_groove, read, read_groove, read_style
from engraver.definition.schema import (
    CardDefinition,
    CellsDefinition,
    ExerciseDefinition,
    GrooveDefinition,
    LadderDefinition,
    LayerDefinition,
    QuestionDefinition,
    TempoSteps,
)

__all__ = [
    "BackMatter",
    "BookDefinition",
    "CardDefinition",
    "CellsDefinition",
    "ChapterDefinition",
    "ExerciseDefinition",
    "ExerciseKind",
    "FrontMatter",
    "GrooveDefinition",
    "LadderDefinition",
    "LayerDefinition",
    "Numbers",
    "PartDefinition",
    "QuestionDefinition",
    "TempoSteps",
    "check",
    "json_schema",
    "origin",
    "parse_groove",
    "read",
    "read_groove",
    "read_style",
    "to_groove",
]
