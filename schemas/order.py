"""In what order codes stand, and when two texts count as one; used at every border."""

from __future__ import annotations

import re
from functools import lru_cache


@lru_cache(1 << 16)
def natural(code: str) -> tuple[tuple[int, int, str], ...]:
    """Key for natural order: digits count as numbers, case does not count; ties by the text itself."""
    parts = re.findall(r"\d+|\D+", code.casefold())
    key = tuple((0, len(p.lstrip("0")), p.lstrip("0")) if p.isdecimal() else (1, 0, p) for p in parts)
    return (*key, (2, 0, code))


def folded(text: str) -> str:
    """The text as it is compared: without regard to case, outer spaces and runs of spaces."""
    return " ".join(text.split()).casefold()
