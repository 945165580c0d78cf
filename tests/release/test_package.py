"""Packages: checked by coreutils and unzip where the machine has them, and by Python's own reader."""

from __future__ import annotations

import os
import shutil
import subprocess
import zipfile
from datetime import date
from pathlib import Path

import pytest

from engraver.errors import EngravingError
from engraver.release.package import pack, whole_folder, write_checksums

DAY = date(2024, 2, 29)


def fill(folder: Path) -> None:
    (folder / "midi").mkdir(parents=True)
    (folder / "Über.pdf").write_bytes(b"%PDF" * 1000)
    (folder / "midi" / "01.mid").write_bytes(b"MThd")


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="sha256sum is not on this machine")
def test_the_checksums_are_those_that_another_program_finds(tmp_path: Path) -> None:
    fill(tmp_path)
    write_checksums(tmp_path)
    checked = subprocess.run(["sha256sum", "--check", "SHA256SUMS"], cwd=tmp_path, capture_output=True, text=True)
    assert (checked.returncode, checked.stdout) == (0, "midi/01.mid: OK\nÜber.pdf: OK\n")
    (tmp_path / "midi" / "01.mid").write_bytes(b"MThx")
    assert subprocess.run(["sha256sum", "--check", "SHA256SUMS"], cwd=tmp_path, capture_output=True).returncode == 1


def test_the_same_files_make_the_same_archive_whenever_they_were_written(tmp_path: Path) -> None:
    archives = []
    for turn in ("a", "b"):
        fill(tmp_path / turn)
        os.utime(tmp_path / turn / "Über.pdf", (1e9 + len(archives), 1e9))
        pack(tmp_path / turn, tmp_path / f"{turn}.zip", DAY, "book")
        archives.append((tmp_path / f"{turn}.zip").read_bytes())
    assert archives[0] == archives[1]


def test_an_archive_unpacks_into_one_folder_with_the_date_of_the_book(tmp_path: Path) -> None:
    fill(tmp_path / "in")
    pack(tmp_path / "in", tmp_path / "book.zip", DAY, "book")
    with zipfile.ZipFile(tmp_path / "book.zip") as packed:
        assert packed.testzip() is None
        assert packed.namelist() == ["book/midi/01.mid", "book/Über.pdf"]
        assert {entry.date_time for entry in packed.infolist()} == {(2024, 2, 29, 0, 0, 0)}
        assert packed.read("book/Über.pdf") == (tmp_path / "in" / "Über.pdf").read_bytes()


def test_a_folder_takes_the_place_of_the_last_one_whole(tmp_path: Path) -> None:
    for content in ("old", "new"):
        with whole_folder(tmp_path / "out") as draft:
            (draft / f"{content}.txt").write_text(content)
    assert [path.name for path in tmp_path.iterdir()] == ["out"]
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["new.txt"]


def test_a_folder_that_was_stopped_leaves_the_last_one_and_can_be_made_again(tmp_path: Path) -> None:
    with whole_folder(tmp_path / "out") as draft:
        (draft / "old.txt").write_text("old")
    with pytest.raises(KeyboardInterrupt), whole_folder(tmp_path / "out") as draft:
        (draft / "half.txt").write_text("half")
        raise KeyboardInterrupt
    (tmp_path / ".out.part").mkdir()  # as a killed program leaves it
    (tmp_path / ".out.part" / "half.txt").write_text("half")
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["old.txt"]
    with whole_folder(tmp_path / "out") as draft:
        (draft / "new.txt").write_text("new")
    assert sorted(path.name for path in tmp_path.rglob("*")) == ["new.txt", "out"]


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(EngravingError, match="could not be written"), whole_folder(tmp_path / "file" / "out"):
        pass
