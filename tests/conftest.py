"""What several folders of tests share: `--update` for golden files, and the demo book, built twice once a run."""

from __future__ import annotations

import fcntl
import pickle
from dataclasses import dataclass
from pathlib import Path

import pytest

from engraver.build import Report, build
from engraver.making.where import Where

BOOK = Path(__file__).parents[1] / "book"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update", action="store_true", help="rewrite the golden LilyPond texts; then read the diff")


@dataclass(frozen=True)
class Demo:
    """The demo book after two builds into one folder."""

    where: Where
    reports: tuple[Report, Report]
    books: tuple[bytes, bytes]


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Demo:
    """Engraved by the first test process that wants it; the others wait for it."""
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if base.name.startswith("popen-") else base
    where = Where(BOOK, shared / "demo")
    with (shared / "demo.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        made = shared / "demo.pickle"
        if not made.exists():
            made.write_bytes(pickle.dumps(_twice(where)))
        found = pickle.loads(made.read_bytes())
    assert isinstance(found, Demo)
    return found


def _twice(where: Where) -> Demo:
    first = build(where, sources=True)
    before = where.book.read_bytes()
    second = build(where)
    return Demo(where, (first, second), (before, where.book.read_bytes()))
