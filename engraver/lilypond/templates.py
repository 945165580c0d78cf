"""The templates of a page design. All that a template prints passes through `datum`: an author's text is quoted."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import jinja2

from engraver.lilypond.source import Source, datum
from engraver.style import design_folders


def fill(design: str, template: str, /, **values: Any) -> Source:
    """A template's text with its places filled."""
    return Source(_environment(design).get_template(template).render(ly=Source, **values))


@lru_cache
def _environment(design: str) -> jinja2.Environment:
    # « » stand in no LilyPond syntax, braces and percent signs in all of it
    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(design_folders(design)),
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
