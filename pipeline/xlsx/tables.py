"""The part that makes a range of cells a table, as finished markup."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_X14 = "http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"
_TOLD = "{504A1905-F514-4f6f-8877-14C23A59335A}"
"""Extension of a table that holds its description. Source: MS-XLSX, 2.3.4 (CT_Table)."""


class Framed(NamedTuple):
    """A table: its cells, its name, its headings, and its description for those who cannot see it."""

    place: str
    name: str
    headings: tuple[str, ...]
    told: str


def part(number: int, table: Framed) -> str:
    """Table number `number` of a workbook. Source: ECMA-376 part 1, 18.5.1.2 table."""
    place, name, headings, told = table
    return (
        '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
        f'<table xmlns="{_MAIN}" id="{number}" name="{name}" displayName="{name}" ref="{place}" totalsRowShown="0">'
        f'<autoFilter ref="{place}"/>{_columns(headings)}'
        '<tableStyleInfo showFirstColumn="0" showLastColumn="0" showRowStripes="1" showColumnStripes="0"/>'
        f'<extLst><ext uri="{_TOLD}" xmlns:x14="{_X14}"><x14:table altTextSummary="{_quoted(told)}"/></ext></extLst></table>'
    )


@lru_cache(maxsize=256)  # the same headings stand in every workbook
def _columns(headings: tuple[str, ...]) -> str:
    seen = [h.lower() for h in headings]
    if len(set(seen)) < len(seen):
        raise ValueError(f"a table has one heading twice: {', '.join(headings)}")
    columns = "".join(f'<tableColumn id="{i}" name="{_quoted(h)}"/>' for i, h in enumerate(headings, 1))
    return f'<tableColumns count="{len(headings)}">{columns}</tableColumns>'


def _quoted(text: str) -> str:
    for sign, name in (("&", "&amp;"), ('"', "&quot;"), ("<", "&lt;"), (">", "&gt;"), ("\n", "&#xA;")):
        text = text.replace(sign, name)
    return text
