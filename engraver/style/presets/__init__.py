"""Presets: style files that come with the program, to begin with or to copy. One file each, beside this one."""

from __future__ import annotations

from importlib import resources
from pathlib import Path


def presets() -> tuple[str, ...]:
    """Their names, the standard one first."""
    names = (file.name for file in resources.files(__package__).iterdir())
    found = (name.removesuffix(".yaml").replace("-", " ") for name in names if name.endswith(".yaml"))
    return tuple(sorted(found, key=lambda name: (name != "published positions", name)))


def preset_path(name: str) -> Path:
    return Path("presets") / f"{name.replace(' ', '-')}.yaml"


def preset_text(name: str) -> str:
    return resources.files(__package__).joinpath(preset_path(name).name).read_text("utf-8")
