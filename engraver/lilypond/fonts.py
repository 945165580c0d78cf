"""Where the fonts of the page designs lie: in packages from PyPI, so that no font file is in the project."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path

from engraver.errors import MissingTool, Problem

PACKAGES = ("font_source_sans_pro", "font_source_serif_pro")


def font_folders() -> tuple[Path, ...]:
    return tuple(_folder(package) for package in PACKAGES)


def _folder(package: str) -> Path:
    spec = find_spec(package)
    if spec is None or spec.origin is None:
        hint = f"install it: pip install {package.replace('_', '-')}"
        raise MissingTool(Problem(None, f'the font package "{package}" is not installed', hint))
    return Path(spec.origin).parent / "files"
