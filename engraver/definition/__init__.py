"""YAML folder in; definitions, style and grooves out; every fault with its place."""

from engraver.definition.bars import Numbers
from engraver.definition.book_file import (
    BookDefinition,
    ChapterDefinition,
    PartDefinition,
)
from engraver.definition.build import origin, to_groove
from engraver.definition.exercise_kinds import ExerciseKind
from engraver.definition.jsonschema import json_schema
from engraver.definition.matter import MatterKind, MatterPage, sheaves
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
    "BookDefinition",
    "CardDefinition",
    "CellsDefinition",
    "ChapterDefinition",
    "ExerciseDefinition",
    "ExerciseKind",
    "GrooveDefinition",
    "LadderDefinition",
    "LayerDefinition",
    "MatterKind",
    "MatterPage",
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
    "sheaves",
    "to_groove",
]
