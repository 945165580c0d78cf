"""The templates of a page design. All that a template prints passes through `datum`: an author's text is quoted.

A template is compiled once: its code is kept where Python keeps that of this module, and under the same trust, or
nowhere if nothing can be written there. It is compiled anew when the template, this module or Python is another.
"""

from __future__ import annotations

import contextlib
import hashlib
import sys
from functools import lru_cache
from pathlib import Path
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
        bytecode_cache=_kept_code(Path(__file__)),
    )


class _KeptCode(jinja2.FileSystemBytecodeCache):
    def dump_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        with contextlib.suppress(OSError):  # read-only, or a full disk: compiled again next time
            if not sys.dont_write_bytecode:
                super().dump_bytecode(bucket)


def _kept_code(module: Path) -> jinja2.BytecodeCache:
    """``module`` decides how templates are compiled, so its text is part of the names."""
    compiler = hashlib.sha256(module.read_bytes()).hexdigest()[:12]
    return _KeptCode(str(module.parent / "__pycache__"), f"template-{compiler}-%s.jinja")


def _printed(value: object) -> object:
    """A macro's output and a marked Source stand as they are; all else becomes a literal."""
    if isinstance(value, jinja2.runtime.Macro):
        return value
    return datum(value)
