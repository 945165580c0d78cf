"""The templates of a page design. All that a template prints passes through `datum`: an author's text is quoted."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

import jinja2

from engraver.errors import MissingTool, Problem, nearest
from engraver.lilypond.fonts import font_folders
from engraver.lilypond.source import Source, datum
from engraver.style import designs, templates_folder

COMMON = "common"  # what all designs share


def design_folder(design: str) -> Path:
    """The folder of a page design. Raises MissingTool if there is none of that name."""
    if design not in designs():
        near = nearest(design, designs())
        hint = f'did you mean "{near}"?' if near else f"there is {', '.join(designs())}"
        raise MissingTool(Problem(None, f'there is no page design "{design}"', hint))
    return templates_folder() / design


def include_folders(design: str) -> tuple[Path, ...]:
    """Where LilyPond looks for what a source includes: the design, then what all designs share, then the fonts."""
    return (*_folders(design), *font_folders())


def _folders(design: str) -> tuple[Path, Path]:
    return design_folder(design), templates_folder() / COMMON


def fill(design: str, template: str, /, **values: Any) -> Source:
    """A template's text with its places filled."""
    return Source(_environment(design).get_template(template).render(ly=Source, **values))


@lru_cache
def _environment(design: str) -> jinja2.Environment:
    # « » stand in no LilyPond syntax, braces and percent signs in all of it
    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(_folders(design)),
        variable_start_string="«",
        variable_end_string="»",
        block_start_string="«%",
        block_end_string="%»",
        comment_start_string="«#",
        comment_end_string="#»",
        finalize=_printed,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        autoescape=False,
    )


def _printed(value: object) -> object:
    """A macro's output and a marked Source stand as they are; all else becomes a literal."""
    if isinstance(value, jinja2.runtime.Macro):
        return value
    return datum(value)
