"""Names of files: any text goes in, a name that is safe on every file system comes out."""

from __future__ import annotations

import re
import unicodedata

LONGEST = 60  # characters of a slug


def slug(title: str) -> str:
    """Small letters, figures and hyphens; ``untitled`` if nothing of that is left."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode("ascii").lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST].strip("-") or "untitled"
