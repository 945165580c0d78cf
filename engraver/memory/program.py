"""What stands for a program in the names of what it made: a hash of its files, not a version that may stay as it is."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path


def fingerprint(parts: Iterable[str | bytes]) -> str:
    """A hash of the parts in their order; lengths are counted in, so that "ab", "c" is not "a", "bc"."""
    total = hashlib.sha256()
    for part in parts:
        content = part.encode("utf-8", "surrogatepass") if isinstance(part, str) else part
        total.update(b"%d:" % len(content) + content)
    return total.hexdigest()


def folder_fingerprint(folder: Path, suffixes: Iterable[str], without: Iterable[str] = ()) -> str:
    """Of the names and contents of the files below a folder that end so, but for the first names in ``without``."""
    left_out, wanted = frozenset(without), tuple(suffixes)
    files = sorted(path for path in folder.rglob("*") if path.name.endswith(wanted) and path.is_file())
    kept = [path for path in files if path.relative_to(folder).parts[0] not in left_out]
    return fingerprint(part for path in kept for part in (path.relative_to(folder).as_posix(), path.read_bytes()))
