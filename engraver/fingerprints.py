"""What stands for the program and a page design in the names of the texts that they make: hashes of their files."""

from __future__ import annotations

import platform
from functools import cache
from importlib.metadata import version
from pathlib import Path

from engraver.memory import fingerprint, folder_fingerprint
from engraver.style import design_folders

# Stages after the text. What a stage not named here is changed in makes all texts again, which is never wrong.
_MAKE_NO_TEXT = ("binding", "engraving", "proof", "export", "release", "starter")
_LIBRARIES = ("jinja2", "markdown-it-py", "PyYAML")


@cache
def program() -> str:
    """The rows of the style and the words are not in it: they are compared one by one."""
    folder = Path(__file__).parent
    libraries = [version(name) for name in _LIBRARIES]
    return fingerprint([platform.python_version(), *libraries, folder_fingerprint(folder, [".py"], _MAKE_NO_TEXT)])


@cache
def binder() -> str:
    """Of what reads engraved pages and binds them."""
    return fingerprint([version("pypdf"), folder_fingerprint(Path(__file__).parent / "binding", [".py"])])


@cache
def templates(design: str) -> str:
    """What LilyPond includes is not in it: that changes pages, but no text."""
    suffixes = (".j2", ".yaml", ".json", ".toml")
    return fingerprint(folder_fingerprint(folder, suffixes) for folder in design_folders(design))
