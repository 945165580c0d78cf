"""Which LilyPond: a name, or nothing, to an executable whose version was asked for."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

from engraver.errors import MissingTool, Problem

VARIABLE = "ENGRAVER_LILYPOND"
SERIES = ((2, 24), (2, 25))
_HINT = f"install the wheel with `pip install lilypond==2.24.3`, or name another one in ${VARIABLE}"


@dataclass(frozen=True, slots=True)
class Engine:
    """A LilyPond that was found to run. ``version`` reads like 2.24.3."""

    path: Path
    version: str

    @staticmethod
    def find(named: str | None = None) -> Engine:
        """The LilyPond named (a path or a command), else the one $ENGRAVER_LILYPOND names, else that of the wheel.

        Raises MissingTool, saying what was found, if it does not run or is of a series we do not know.
        """
        path = _path(named or os.environ.get(VARIABLE))
        version = _version(path)
        if tuple(int(part) for part in version.split(".")[:2]) not in SERIES:
            raise MissingTool(Problem(None, f"{path} is LilyPond {version}; 2.24 or 2.25 is needed", _HINT))
        return Engine(path, version)


def _path(named: str | None) -> Path:
    if named is None:
        return _wheel()
    found = shutil.which(os.path.expanduser(named))  # noqa: PTH111 - a Path forgets the ./ that keeps PATH out
    if found is None:
        raise MissingTool(Problem(None, f'"{named}" is not a program that can be run', _HINT))
    return Path(found).absolute()


def _wheel() -> Path:
    try:
        import lilypond
    except ImportError:
        raise MissingTool(Problem(None, "LilyPond is not installed", _HINT)) from None
    return Path(lilypond.executable()).absolute()


def _version(path: Path) -> str:
    try:
        run = subprocess.run([path, "--version"], capture_output=True, text=True, errors="replace", timeout=60)
    except (OSError, subprocess.TimeoutExpired) as error:
        raise MissingTool(Problem(None, f"{path} does not run: {error}", _HINT)) from error
    found = re.match(r"GNU LilyPond (\d+\.\d+\.\d+)", run.stdout)
    if found is None:
        said = (run.stdout or run.stderr).strip().splitlines()[:1]
        raise MissingTool(
            Problem(None, f"{path} is not LilyPond: it says {repr(said[0]) if said else 'nothing'}", _HINT)
        )
    return found[1]
