"""The page designs: folders of templates."""

from __future__ import annotations

from pathlib import Path


def templates_folder() -> Path:
    """In the wheel the templates lie beside the package's modules, in a checkout beside the package."""
    package = Path(__file__).resolve().parents[1]
    shipped = package / "templates"
    return shipped if shipped.is_dir() else package.parent / "templates"


def designs() -> tuple[str, ...]:
    return tuple(sorted(path.name for path in templates_folder().iterdir() if (path / "chapter.ly.j2").is_file()))
