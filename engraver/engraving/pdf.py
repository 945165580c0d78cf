"""PDFs as cairo writes them: is it whole; and its date made one and the same, so that two runs give equal bytes."""

from __future__ import annotations

import re
from pathlib import Path

_DATE = re.compile(rb"(/(?:CreationDate|ModDate) \(D:)(\d{14})")
_FIXED = b"20000101000000"  # any date of fourteen digits: offsets in the file must not move


def fix_date(path: Path) -> None:
    """Rewrites the dates in place. They stand uncompressed; the zone after them is that of the run."""
    text = path.read_bytes()
    fixed = _DATE.sub(rb"\g<1>" + _FIXED, text)
    assert len(fixed) == len(text)
    path.write_bytes(fixed)


def is_whole(path: Path) -> bool:
    """It is there from its first bytes to its last."""
    if not path.is_file():
        return False
    text = path.read_bytes()
    return text.startswith(b"%PDF-") and text.rstrip().endswith(b"%%EOF")
