from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from engraver.engraving import Engine, Workshop


@pytest.fixture(scope="session")
def engine() -> Engine:
    return Engine.find()


@pytest.fixture
def shop(engine: Engine, tmp_path: Path) -> Callable[..., Workshop]:
    """A workshop on a store of the test's own."""

    def make(store: str = "store", include: tuple[Path, ...] = (), **options: object) -> Workshop:
        return Workshop(engine, include, tmp_path / store, **options)  # type: ignore[arg-type]

    return make
