"""File and folder names made from codes: safe on every common system, never colliding."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable

_RESERVED = {"con", "prn", "aux", "nul", *(f"com{i}" for i in range(10)), *(f"lpt{i}" for i in range(10))}
_LONGEST = 60


def safe_name(code: str) -> str:
    """A name of letters, digits, `-`, `_` and `.` for a code; codes that differ may give the same one."""
    name = re.sub(r"[^A-Za-z0-9._-]+", "_", code).strip("._ ")[:_LONGEST].rstrip("._ ")
    return f"{name}_" if not name or name.split(".")[0].casefold() in _RESERVED else name


def site_names(codes: Iterable[str]) -> dict[str, str]:
    """A folder name for each code: its safe name where that shows the code as it is, else with a mark from the code's hash.

    The name depends on the code alone, so a site keeps it whatever other sites come and go.
    """
    return {code: site_name(code) for code in codes}


def site_name(code: str) -> str:
    """Folder name of one site. Codes are compared without regard to case, so the mark is made from the folded code."""
    name = safe_name(code)
    if name == code:
        return name
    mark = hashlib.sha256(code.casefold().encode("utf-8", "surrogatepass")).hexdigest()[:8]
    return f"{name}-{mark}"
