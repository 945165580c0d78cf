"""One workshop for all engraved tests, and the grooves of a module engraved together."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

import pytest

from engraver.engraving import Engine, Workshop
from engraver.style import include_folders
from tests.engraved.sheets import Case, Sheet, engrave


@pytest.fixture(scope="session")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workshop]:
    with Workshop(Engine.find(), include_folders("workbook"), tmp_path_factory.mktemp("store")) as opened:
        yield opened


@pytest.fixture(scope="session")
def engraved(shop: Workshop) -> Callable[[Sequence[Case]], Mapping[str, Sheet]]:
    return lambda cases: engrave(shop, cases)
