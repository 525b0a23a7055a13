"""Words in a row as a sentence has them."""

from __future__ import annotations

from collections.abc import Sequence


def joined(parts: Sequence[str], word: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`; with another word between the last two where one is named."""
    return f" {word} ".join([", ".join(parts[:-1]), parts[-1]]) if len(parts) > 1 else "".join(parts)
