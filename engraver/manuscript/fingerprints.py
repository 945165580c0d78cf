"""What stands for the program and a page design in the names of the texts that they make: hashes of their files."""

from __future__ import annotations

import platform
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from engraver.memory import fingerprint, folder_fingerprint
from engraver.style import design_folders

# Stages after the text. What a stage not named here is changed in makes all texts again, which is never wrong.
_MAKE_NO_TEXT = ("binding", "engraving", "proof", "export", "release", "starter")
_LIBRARIES = (("jinja2", "jinja2"), ("markdown_it", "markdown_it_py"), ("yaml", "pyyaml"))  # module, distribution


@cache
def program() -> str:
    """The rows of the style and the words are not in it: they are compared one by one."""
    folder = Path(__file__).parents[1]
    libraries = [_version(*library) for library in _LIBRARIES]
    return fingerprint([platform.python_version(), *libraries, folder_fingerprint(folder, [".py"], _MAKE_NO_TEXT)])


@cache
def binder() -> str:
    """Of what reads engraved pages, binds them, and keeps what was read."""
    return fingerprint(folder_fingerprint(Path(__file__).parents[1] / name, [".py"]) for name in ("binding", "memory"))


@cache
def templates(design: str) -> str:
    """What LilyPond includes is not in it: that changes pages, but no text."""
    suffixes = (".j2", ".yaml", ".json", ".toml")
    return fingerprint(folder_fingerprint(folder, suffixes) for folder in design_folders(design))


def _version(module: str, distribution: str) -> str:
    """The name that pip gives the record of an installed library: looked up without loading either of them."""
    spec = find_spec(module)
    assert spec is not None and spec.origin is not None, module
    records = Path(spec.origin).parents[1].glob("*.dist-info")
    return " ".join(sorted(p.name for p in records if p.name.lower().startswith(f"{distribution}-")))
