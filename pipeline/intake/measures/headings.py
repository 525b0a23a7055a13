"""Units that a heading or a number format shows."""

from __future__ import annotations

import re


def heading_unit(text: str) -> tuple[str, str]:
    """Heading without its unit, and the unit ('' = none)."""
    m = re.fullmatch(r"(.*?)\s*[\[(](ft|in|mm|cm|m|deg|mph|%|lb|N m|ft-in)[\])]", text)
    return (m[1], m[2]) if m else (text, "")


def format_unit(number_format: str) -> str:
    """Unit that a spreadsheet's number format shows ('' = none)."""
    return ""
