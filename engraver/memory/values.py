"""Our own values to bytes and back. Bytes that name anything but a value of ours are refused: nothing in them is run.

Source of the method: Python's documentation of `pickle`, "Restricting globals".
"""

from __future__ import annotations

import io
import pickle
from dataclasses import is_dataclass
from enum import Enum
from typing import Any

_PLAIN = frozenset(
    {
        ("fractions", "Fraction"),
        ("datetime", "date"),
        ("pathlib", "PosixPath"),
        ("pathlib", "WindowsPath"),
        ("builtins", "frozenset"),
        ("builtins", "set"),
    }
)


def pack(value: object) -> bytes:
    return pickle.dumps(value, protocol=5)


def unpack(content: bytes) -> Any:
    """Raises ValueError if the bytes are no values of ours."""
    try:
        return _Reader(io.BytesIO(content)).load()
    except Exception as error:  # damaged bytes fail in any way the reader can
        raise ValueError(f"not a value of ours: {error}") from error


class _Reader(pickle.Unpickler):
    def find_class(self, module: str, name: str) -> Any:
        found = super().find_class(module, name) if module.startswith("engraver.") or (module, name) in _PLAIN else None
        if not isinstance(found, type) or not ((module, name) in _PLAIN or _is_value(found)):
            raise pickle.UnpicklingError(f"{module}.{name} is no value")
        return found


def _is_value(kind: type) -> bool:
    """Frozen dataclasses, enums and marked texts; found where they are defined, not where they were imported."""
    frozen = is_dataclass(kind) and getattr(kind, "__dataclass_params__").frozen  # noqa: B009
    return kind.__module__.startswith("engraver.") and (frozen or issubclass(kind, Enum | str))
