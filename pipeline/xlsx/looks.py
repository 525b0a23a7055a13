"""The formats of all workbooks, made once a process; the spreadsheet library writes their part once."""

from __future__ import annotations

import io
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from zipfile import ZipFile

import xlsxwriter

from pipeline.xlsx import styles


def options() -> dict[str, Any]:
    """How the spreadsheet library makes our workbooks; it keeps notes in what it is given, so each gets its own."""
    return {
        "in_memory": True,
        "strings_to_formulas": False,
        "strings_to_urls": False,
        "strings_to_numbers": False,
        # a font of the theme would be another one wherever the theme names another
        "default_format_properties": {"font_name": styles.FONT, "font_size": 10, "font_scheme": "none"},
        "default_row_height": 17,
    }


NAMES = tuple(dict.fromkeys((*styles.STYLES, *styles.MONEY_STYLES)))
"""Every style, in the order of its format."""


@dataclass(frozen=True)
class Looks:
    """Formats of the workbooks of one currency, by name of the style."""

    formats: dict[str, Any]  # as the library takes them
    text: dict[str, str]  # what follows a text cell's address
    number: dict[str, str]
    blank: dict[str, str]
    styles: str  # the part xl/styles.xml
    theme: str  # the part xl/theme/theme1.xml


@lru_cache(maxsize=8)
def looks(digits: int) -> Looks:
    """All formats for a currency with `digits` decimals."""
    made = io.BytesIO()
    book = xlsxwriter.Workbook(made, options())
    formats = {name: book.add_format(styles.style(name, digits)) for name in NAMES}
    number = {name: look._get_xf_index() for name, look in formats.items()}
    book.close()
    with ZipFile(made) as parts:
        style, theme = (parts.read(f"xl/{name}.xml").decode() for name in ("styles", "theme/theme1"))
    return Looks(
        formats,
        {name: f'" s="{n}" t="s"><v>' for name, n in number.items()},
        {name: f'" s="{n}"><v>' for name, n in number.items()},
        {name: f'" s="{n}"/>' for name, n in number.items()},
        style,
        theme,
    )
