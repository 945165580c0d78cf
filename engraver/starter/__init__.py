"""The small book that ``engraver new`` makes."""

from __future__ import annotations

import shutil
from importlib import resources
from pathlib import Path

from engraver.errors import DefinitionError, Problem


def copy_starter(folder: Path) -> None:
    """Copy the files. Raises DefinitionError if the folder is there and not empty."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        message = f'"{folder}" is there already and not empty'
        raise DefinitionError(Problem(None, message, "name a folder that is not there yet"))
    with resources.as_file(resources.files(__package__)) as starter:
        ignored = shutil.ignore_patterns("__pycache__", "*.py")
        shutil.copytree(starter, folder, dirs_exist_ok=True, ignore=ignored)
