"""The templates of a page design. All that a template prints passes through `datum`: an author's text is quoted.

A template is compiled once: its code is kept where Python keeps that of this module, and under the same trust, or
nowhere if nothing can be written there. It is compiled anew when the template, this module, Jinja or Python is another.
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
    """Code counts only under the hash of all it was made by, so a file that is out of date is written over."""

    def __init__(self, folder: Path, compiler: bytes) -> None:
        super().__init__(str(folder), "template-%s.jinja")
        self._compiler = compiler

    def get_source_checksum(self, source: str) -> str:
        return hashlib.sha256(self._compiler + source.encode()).hexdigest()

    def load_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        try:
            super().load_bytecode(bucket)
        except Exception:  # a damaged file fails in any way its reader can
            bucket.reset()

    def dump_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        with contextlib.suppress(OSError):  # read-only, or a full disk: compiled again next time
            if not sys.dont_write_bytecode:
                super().dump_bytecode(bucket)


def _kept_code(module: Path) -> jinja2.BytecodeCache:
    """Beside that of ``module``, which decides with Jinja how templates are compiled."""
    made_by = (module, Path(jinja2.__file__), Path(jinja2.compiler.__file__))
    compiler = hashlib.sha256(b"".join(file.read_bytes() for file in made_by)).digest()
    return _KeptCode(module.parent / "__pycache__", compiler)


def _printed(value: object) -> object:
    """A macro's output and a marked Source stand as they are; all else becomes a literal."""
    if isinstance(value, jinja2.runtime.Macro):
        return value
    return datum(value)
