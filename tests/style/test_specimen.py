"""The specimen shows the whole style: every instrument, every setting, and LilyPond has nothing to say against it."""

from __future__ import annotations

import shutil
from importlib.util import find_spec
from pathlib import Path

import pypdfium2
import pytest
from pypdf import PdfReader
from pypdf.generic import DictionaryObject

from engraver import definition, lilypond
from engraver.cli import command_line
from engraver.definition.settings import in_force, settings
from engraver.engraving import Job
from engraver.making.where import Where, workshop
from engraver.specimen import Specimen, specimen
from engraver.specimen.make import figures
from engraver.starter import copy_starter
from engraver.style import Style, designs, languages, preset_text, presets, words_text

OWN = "kit: {log drum: {position: -2, limbs: hands, key: 77, head: triangle, label: log drum from the attic}}\n"
# each value of each setting that a staff shows, in as few sheets as will do
STYLES = [
    "",
    OWN
    + "staff size: 17\nghosts: small\nvoices: one\naccents: head side\nbeams: beats\nrests: full\nrepeat bars: yes\n",
    "paper: Letter\nbars per line: 1\nbar numbers: all bars\ntempo: about\ncounting: all bars\nsyllables: 1 & a\n",
    "cell names: primes\ncoloured notes: yes\nhandedness: left\nlanguage: de\nghosts: both\nbar numbers: lines\n",
    "paper: {width: 170, height: 230}\ntempo: bpm\nsticking: no\ncounting: none\ncolours: no\n",
    "design: edition\npaper: Letter\nmargins: {top: 2, bottom: 2, inner: 5, outer: 1}\n",
    *(f"preset: {name}\n" for name in presets()[1:]),
    *(f"preset: {name}\npaper: Letter\ndesign: edition\n" for name in presets()[1:]),
]


def made(folder: Path, rows: str) -> Specimen:
    copy_starter(folder / "songs")
    (folder / "songs/style.yaml").write_text(rows, "utf-8")
    return specimen(Where(folder / "songs", folder))


def text_of(pdf: Path) -> str:
    pages = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf)]
    return " ".join(" ".join(pages).split())


@pytest.fixture(scope="module")
def said(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """What LilyPond said of the sheet of each style; all of a design are engraved by the same processes."""
    folder, found = tmp_path_factory.mktemp("specimens"), {}
    styles = {rows: _style(folder, rows) for rows in STYLES}
    for design in designs():
        jobs = [Job(rows, _sheet(style)) for rows, style in styles.items() if style.design == design]
        with workshop(Where(folder, folder), Style(design=design)) as shop:
            for result in shop.engrave(jobs):
                found[result.job.name] = [str(each) for each in result.complaints] + [result.failure or ""]
    return found


def _style(folder: Path, rows: str) -> Style:
    (folder / "style.yaml").write_text(rows, "utf-8")
    return definition.read_style(folder)


def _sheet(style: Style) -> str:
    return lilypond.specimen(tuple(figures(style)), tuple(in_force(style)), style)


@pytest.mark.parametrize("rows", STYLES)
def test_lilypond_warns_of_nothing(rows: str, said: dict[str, list[str]]) -> None:
    assert said[rows] == [""]


def test_every_instrument_and_every_setting_is_on_it(tmp_path: Path) -> None:
    text = text_of(made(tmp_path, OWN).out)
    labels = [row.label for row in Style().kit.rows] + ["log drum from the attic"]
    assert [label for label in labels if label not in text] == []
    assert [each.name for each in settings() if each.name not in text] == ["preset"]


def test_the_author_s_own_font_sets_the_words(tmp_path: Path) -> None:
    spec = find_spec("font_source_serif_pro")
    assert spec and spec.origin
    copy_starter(tmp_path / "songs")
    shutil.copy(Path(spec.origin).parent / "files/SourceSerifPro-Black.ttf", tmp_path / "songs/mine.ttf")
    (tmp_path / "songs/style.yaml").write_text("fonts: {labels: {regular: mine.ttf}}\n", "utf-8")
    out = specimen(Where(tmp_path / "songs", tmp_path)).out
    assert "SourceSerifPro-Black" in fonts_of(out)


def test_the_standard_fonts_are_those_of_the_design(tmp_path: Path) -> None:
    found = fonts_of(made(tmp_path, "").out)
    assert "SourceSerifPro-Black" not in found
    assert {name for name in found if name.startswith("SourceSansPro")}


def fonts_of(pdf: Path) -> set[str]:
    """Without the letters of a subset and their plus sign (ISO 32000-1, 9.6.4)."""
    found = set()
    for page in PdfReader(pdf).pages:
        resources = page["/Resources"].get_object()
        assert isinstance(resources, DictionaryObject)
        for font in dict(resources.get("/Font", {})).values():
            found.add(str(font.get_object()["/BaseFont"]).removeprefix("/").partition("+")[2])
    return found


def printed(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    command_line.commands(list(arguments), standalone_mode=False)
    return capsys.readouterr().out


@pytest.mark.parametrize("language", languages())
def test_the_words_are_printed_as_they_are_written(language: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert printed(capsys, "words", "--language", language) == words_text(language)


def test_presets_are_listed_and_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert printed(capsys, "preset").splitlines() == list(presets())
    assert printed(capsys, "preset", "large print") == preset_text("large print")
