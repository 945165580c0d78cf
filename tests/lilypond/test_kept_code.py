"""A template's code is kept beside that of the module that compiles it, and made anew when either is another."""

from __future__ import annotations

import sys
from pathlib import Path

import jinja2
import pytest
from jinja2.bccache import bc_magic

from engraver.lilypond.templates import _kept_code

Kept = tuple[Path, Path]


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Kept:
    """A module with a place for its code, and a folder with one template; Python may write code."""
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    module, folder = tmp_path / "templates.py", tmp_path / "design"
    (tmp_path / "__pycache__").mkdir()
    folder.mkdir()
    module.write_text("one way to compile")
    (folder / "page.j2").write_text("a page of {{ name }}")
    return module, folder


def filled(kept: Kept, compiled: list[str]) -> str:
    """What the template says; ``compiled`` gets its name if it has to be compiled."""

    class Environment(jinja2.Environment):
        def compile(self, source: object, name: str | None = None, *args: object, **options: object) -> object:  # type: ignore[override]
            compiled.append(str(name))
            return super().compile(source, name, *args, **options)  # type: ignore[call-overload]

    module, folder = kept
    environment = Environment(loader=jinja2.FileSystemLoader(folder), bytecode_cache=_kept_code(module))
    return environment.get_template("page.j2").render(name="wheels")


def test_a_template_is_compiled_once(kept: Kept) -> None:
    compiled: list[str] = []
    assert [filled(kept, compiled), filled(kept, compiled)] == ["a page of wheels"] * 2
    assert compiled == ["page.j2"]


@pytest.mark.parametrize("changed", ["the template", "the module", "Jinja"])
def test_it_is_compiled_anew_when_something_of_it_is_another(
    kept: Kept, changed: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    module, folder = kept
    compiled: list[str] = []
    filled(kept, compiled)
    if changed == "the template":
        (folder / "page.j2").write_text("a page of {{ name }} and more")
    elif changed == "the module":
        module.write_text("another way")
    else:
        (tmp_path / "compiler.py").write_text("another compiler")
        monkeypatch.setattr(jinja2.compiler, "__file__", str(tmp_path / "compiler.py"))
    assert filled(kept, compiled).startswith("a page of wheels")
    assert len(compiled) == 2
    assert len(list((module.parent / "__pycache__").iterdir())) == 1  # nothing is left of the old code


@pytest.mark.parametrize("left", [0, 1, len(bc_magic), len(bc_magic) + 7, -1])
def test_kept_code_that_was_cut_off_is_compiled_anew(kept: Kept, left: int) -> None:
    """After so many bytes: none, within and behind the mark of the kind, within the checksum, one too early."""
    module, _ = kept
    compiled: list[str] = []
    filled(kept, compiled)
    [code] = (module.parent / "__pycache__").iterdir()
    whole = code.read_bytes()
    code.write_bytes(whole[:left])
    assert filled(kept, compiled) == "a page of wheels"
    assert len(compiled) == 2 and code.read_bytes() == whole


def test_without_a_place_to_write_it_is_compiled_each_time(kept: Kept) -> None:
    module, _ = kept
    (module.parent / "__pycache__").rmdir()
    compiled: list[str] = []
    assert [filled(kept, compiled), filled(kept, compiled)] == ["a page of wheels"] * 2
    assert len(compiled) == 2


def test_where_python_keeps_no_code_none_is_kept(kept: Kept, monkeypatch: pytest.MonkeyPatch) -> None:
    module, _ = kept
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    filled(kept, [])
    assert list((module.parent / "__pycache__").iterdir()) == []
