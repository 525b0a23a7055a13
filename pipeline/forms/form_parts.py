"""What both forms are made of: a workbook without a clock, formats, drop-downs, notes that show beside a cell."""

from __future__ import annotations

import datetime
import io
import math
from typing import Any

import xlsxwriter

from schemas.column import Column

INK, PAPER, BAND, NEEDED, FINE, RULE = "#1F2933", "#FFFFFF", "#2F4858", "#FFE9B0", "#52606D", "#9AA5B1"
"""Our palette: ink on paper, white on the band of headings, ink on the amber of needed columns; all above 4.5 to 1."""

_CREATED = datetime.datetime(2000, 1, 1, tzinfo=datetime.UTC).replace(tzinfo=None)


class Form:
    """An open workbook with its formats; `done` gives its bytes."""

    def __init__(self, title: str) -> None:
        self._out = io.BytesIO()
        options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
        self.book = xlsxwriter.Workbook(self._out, options)
        self.book.set_properties({"title": title, "created": _CREATED})
        base = {"font_name": "Calibri", "font_size": 11, "font_color": INK, "valign": "top"}
        rule = {"border": 1, "border_color": RULE}
        add = self.book.add_format
        self.title = add({**base, "bold": True, "font_size": 16, "valign": "vcenter"})
        self.plain = add({**base, "text_wrap": True})
        self.line = add(base)
        self.bold_line = add({**base, "bold": True})
        self.bold = add({**base, "bold": True, "text_wrap": True})
        self.fine = add({**base, "font_color": FINE, "italic": True})
        head = {**base, **rule, "bold": True, "font_color": PAPER, "bg_color": BAND, "text_wrap": True, "valign": "vcenter"}
        self.head = add(head)
        self.head_needed = add({**head, "font_color": INK, "bg_color": NEEDED})
        self.mark = add({**base, **rule, "font_size": 9, "align": "center", "font_color": FINE})
        self.mark_needed = add({**base, **rule, "font_size": 9, "align": "center", "bold": True, "bg_color": NEEDED})
        self.cell = add({**base, **rule, "text_wrap": True})
        self.left = add({**base, **rule, "align": "left"})
        self.cell_needed = add({**base, **rule, "text_wrap": True, "bg_color": "#FFF8E6"})
        self.text = add({**base, **rule, "text_wrap": True, "num_format": "@"})
        self.text_needed = add({**base, **rule, "text_wrap": True, "num_format": "@", "bg_color": "#FFF8E6"})
        word = {**base, **rule, "shrink": True, "num_format": "@"}
        self.word = add(word)
        self.word_needed = add({**word, "bg_color": "#FFF8E6"})

    def format(self, column: Column) -> Any:
        """Format of an empty cell of the column: text where 8-6 or 007 would else become a date or a number."""
        free = column.kind in ("whole", "money", "percent", "number", "mass", "moment") or _numbered(column)
        if column.values and not free:
            return self.word_needed if column.needed else self.word
        if free:
            return self.cell_needed if column.needed else self.cell
        return self.text_needed if column.needed else self.text

    def done(self) -> bytes:
        """Close the workbook and give its bytes."""
        self.book.close()
        return self._out.getvalue()


def _numbered(column: Column) -> bool:
    return bool(column.values) and all(v.isdecimal() for v in column.values)


def validate(ws: Any, column: Column, first: int, at: int, last: int, needed: str = "Needed") -> None:
    """A drop-down where the column has a list, a whole number where it counts; and what to type, shown beside the cell."""
    rule: dict[str, Any] = {"validate": "any"}
    if column.values:
        rule = {
            "validate": "list",
            "source": list(column.values),
            "error_title": "Not in the list",
            "error_message": f"Choose one of: {', '.join(column.values)}."[:255],
        }
    elif column.kind == "whole":
        rule = {
            "validate": "integer",
            "criteria": ">=",
            "value": 1,
            "error_title": "A whole number",
            "error_message": "Type a whole number from 1 on, such as 2.",
        }
    ws.data_validation(
        first, at, last, at, {**rule, "input_title": column.heading[:32], "input_message": note(column, 255, needed)}
    )


def note(column: Column, longest: int = 10_000, needed: str = "Needed") -> str:
    """The column's help in one text, with whether it is needed."""
    ending = f" {needed}." if column.needed else ""
    text = column.help if len(column.help) + len(ending) <= longest else f"{column.help[: longest - len(ending) - 3].rstrip()}..."
    return f"{text}{ending}"


def lines(text: str, width: int) -> int:
    """Lines that a text takes in a wrapped cell of so many characters; a little more than less."""
    return max(1, sum(math.ceil(len(part) * 1.06 / width) for part in text.split("\n")))


def landscape(ws: Any, heading_row: int, last_column: int, last_row: int) -> None:
    """Print one page wide, landscape, headings on every page, page numbers below."""
    ws.set_landscape()
    ws.set_margins(left=0.3, right=0.3, top=0.4, bottom=0.6)
    ws.fit_to_pages(1, 0)
    ws.repeat_rows(heading_row)
    ws.print_area(0, 0, last_row, last_column)
    ws.set_footer("&L&F&C&A&RPage &P of &N")
