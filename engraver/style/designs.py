"""The page designs: folders of templates, and the fonts that they are set in, which come in packages from PyPI."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path

from engraver.errors import MissingTool, Problem, meant

COMMON = "common"  # what all designs share
FONTS = ("font_source_sans_pro", "font_source_serif_pro")


def templates_folder() -> Path:
    """In the wheel the templates lie beside the package's modules, in a checkout beside the package."""
    package = Path(__file__).resolve().parents[1]
    shipped = package / "templates"
    return shipped if shipped.is_dir() else package.parent / "templates"


def designs() -> tuple[str, ...]:
    return tuple(sorted(path.name for path in templates_folder().iterdir() if (path / "chapter.ly.j2").is_file()))


def design_folder(design: str) -> Path:
    """The folder of a page design. Raises MissingTool if there is none of that name."""
    if design not in designs():
        hint = meant(design, designs(), f"there is {', '.join(designs())}")
        raise MissingTool(Problem(None, f'there is no page design "{design}"', hint))
    return templates_folder() / design


def design_folders(design: str) -> tuple[Path, Path]:
    """Where the files of a design are looked for: in its own folder, then in that of all designs."""
    return design_folder(design), templates_folder() / COMMON


def include_folders(design: str) -> tuple[Path, ...]:
    """Where LilyPond looks for what a source includes: the design, then what all designs share, then the fonts."""
    return (*design_folders(design), *font_folders())


def font_folders() -> tuple[Path, ...]:
    return tuple(_font_folder(package) for package in FONTS)


def _font_folder(package: str) -> Path:
    spec = find_spec(package)
    if spec is None or spec.origin is None:
        hint = f"install it: pip install {package.replace('_', '-')}"
        raise MissingTool(Problem(None, f'the font package "{package}" is not installed', hint))
    return Path(spec.origin).parent / "files"
