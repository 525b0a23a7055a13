"""A workbook and its pages: tables, paragraphs, print set-up, through the spreadsheet library's public interface."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from datetime import datetime
from decimal import Decimal
from typing import Any

import xlsxwriter

from pipeline.xlsx import paper, styles
from pipeline.xlsx.paper import A4, LETTER
from pipeline.xlsx.picture import fitting
from pipeline.xlsx.values import BOLD, FIGURES, RIGHT, As, Col, Formula, Link, Row
from pipeline.xlsx.widths import SURE, head_room, inside, need, unparted
from pipeline.xlsx.wrap import BOLDER, clean, fitted, lines

_LINE_POINTS = 13.2
_MOST_POINTS = 409.0
"""Tallest row [pt]. Source: Excel specifications and limits, Microsoft."""
_ROOM, _LEAST_ROOM = 150, 90
"""Most width of a paragraph on a page of tables, and the least one where its tables are narrow [digit widths]."""
_WIDEST = 1.85
"""A letter takes no more room than this [digit widths]."""
_ROW = 17
"""Usual height of a row [pixels]."""
_PROPERTY = 255
"""Longest text of a document property. Source: Excel specifications and limits, Microsoft."""


def _options() -> dict[str, Any]:
    """How the spreadsheet library makes our workbooks; it keeps notes in what it is given, so each gets its own."""
    return {
        "in_memory": True,
        "strings_to_formulas": False,
        "strings_to_urls": False,
        "strings_to_numbers": False,
        # a font of the theme would be another one wherever the theme names another
        "default_format_properties": {"font_name": styles.FONT, "font_size": 10, "font_scheme": "none"},
        "default_row_height": _ROW,
    }


class Book:
    """A workbook in memory; the same calls give the same bytes."""

    def __init__(
        self, title: str, subject: str, date: str, program: str, digits: int = 2, paper: str = "Letter", author: str = ""
    ) -> None:
        self._made = io.BytesIO()
        self.workbook = xlsxwriter.Workbook(self._made, _options())
        described = {"title": title, "subject": subject, "comments": program, "author": author, "company": author}
        shown = {name: clean(text)[:_PROPERTY] for name, text in described.items() if text}
        self.workbook.set_properties({**shown, "created": datetime.fromisoformat(date)})
        self.digits = digits
        self.paper = LETTER if paper == "Letter" else A4
        self._formats: dict[str, Any] = {}
        self._pages: list[Page] = []

    def tag(self, name: str, value: str) -> None:
        """A property of the workbook's own, by which it is known when it comes back."""
        self.workbook.set_custom_property(name, clean(value)[:_PROPERTY], "text")

    def format(self, name: str) -> Any:
        """The format of a style, as the spreadsheet library takes it."""
        made = self._formats.get(name)
        if made is None:
            made = self._formats[name] = self.workbook.add_format(styles.style(name, self.digits))
        return made

    def page(self, name: str, colour: str = "#1F4B57") -> Page:
        """A new sheet at the end."""
        sheet = self.workbook.add_worksheet(name)
        sheet.hide_gridlines(2)
        sheet.set_tab_color(colour)
        sheet.ignore_errors({"number_stored_as_text": "A1:XFD1048576"})  # codes such as 12 are text on purpose
        page = Page(self, sheet, name)
        self._pages.append(page)
        return page

    def bytes(self) -> bytes:
        """Closes the workbook and hands it over."""
        for page in self._pages:
            page.close()
        self.workbook.close()
        return self._made.getvalue()


class Page:
    """One sheet that is filled from the top; widths and heights are worked out when the book is closed."""

    def __init__(self, book: Book, sheet: Any, name: str) -> None:
        self.book = book
        self.sheet = sheet
        self.name = name
        self.widths: dict[int, float] = {}
        self.kept: list[tuple[int, int]] = []
        self._least: dict[int, float] = {}  # width of a column of a table, which no fitting takes from it
        self._heights: dict[int, float] = {}  # by row [pt]
        self._last = 0  # row
        self._paragraphs: list[tuple[int, int, int | None, str, str]] = []
        self._tables: list[tuple[int, list[str], Sequence[Row]]] = []
        self._headings: list[tuple[int, str]] = []
        self._wrapped: list[tuple[int, int, str, str]] = []
        self._print: tuple[int, bool] | None = None
        self._fitted = False  # one page wide whatever the program makes of the widths; it may then pass breaks over

    def put(self, row: int, column: int, value: Any, style: str) -> None:
        """Writes one value; text never becomes a formula, a number that is not known becomes words."""
        kind, look = type(value), self.book.format(style)
        self._last = max(self._last, row)
        if kind is str:
            self.sheet.write_string(row, column, clean(value), look)
        elif kind is int or kind is float:
            if value - value == 0:  # neither NaN nor infinite
                self.sheet.write_number(row, column, value, look)
            else:
                self.put(row, column, "not known" if value != value else "infinite", "right")
        elif value is None:
            self.sheet.write_blank(row, column, None, look)
        elif kind is As:
            self.put(row, column, value.value, value.style)
        elif kind is Formula:
            self.sheet.write_formula(row, column, value.formula, look, value.result)
        elif kind is Link:
            words = clean(value.text)
            if self.sheet.write_url(row, column, value.url, self.book.format("link"), words):
                self.sheet.write_string(row, column, words, self.book.format("link"))  # a link that is too long
        elif kind is Decimal:
            self.put(row, column, float(value), style)
        else:
            raise TypeError(f"no cell can hold {value!r}")

    def tall(self, row: int, points: float) -> None:
        """Sets a row's height."""
        self._heights[row] = points
        self._last = max(self._last, row)

    def title(self, text: str) -> None:
        """The sheet's title, in its first row; it runs over the empty cells beside it."""
        self.tall(0, 24)
        self.put(0, 0, text, "sheet_title")

    def section(self, row: int, text: str, columns: int = 6) -> int:
        """A heading within the sheet; returns the next row."""
        for column in range(1, columns):
            self.put(row, column, None, "section")
        self.put(row, 0, text, "section")
        self.tall(row, 20)
        return row + 1

    def para(self, row: int, text: str, style: str = "para", first: int = 0, last: int | None = None) -> int:
        """A paragraph across columns, tall enough for its text; returns the next row."""
        self._paragraphs.append((row, first, last, clean(text), style))
        self._last = max(self._last, row)
        return row + 1

    def paras(self, row: int, texts: Iterable[str], style: str = "para") -> int:
        """Paragraphs one below the other; returns the next row."""
        for text in texts:
            row = self.para(row, text, style)
        return row

    def wrapped(self, row: int, column: int, text: str, style: str = "text") -> None:
        """Makes a row tall enough for a text that wraps in its own cell."""
        self._wrapped.append((row, column, clean(text), style))

    def picture(self, row: int, column: int, data: bytes, described: str, wide: int, high: int) -> None:
        """A PNG or JPEG picture at a cell, no larger than `wide` x `high` pixels; the row is made tall enough."""
        scale, tall = fitting(data, wide, high)
        place = {"x_scale": scale, "y_scale": scale, "x_offset": 2, "y_offset": 2, "object_position": 2}
        self.sheet.insert_image(row, column, "picture", {"image_data": io.BytesIO(data), "description": described, **place})
        self.tall(row, max(self._heights.get(row, 0), tall * 0.75 + 4))

    def table(self, top: int, name: str, columns: Sequence[Col], rows: Sequence[Row], described: str = "") -> int:
        """A real table with filters, its heading row at `top`; returns the row after it.

        `described` is its description for those who cannot see it. `rows` must not be empty: a page
        without rows says so in words instead.
        """
        heads = [
            {"header": c.heading, "header_format": self.book.format("head_right" if c.style in RIGHT else "head")}
            for c in columns
        ]
        options = {"name": name, "style": None, "columns": heads, "description": described or f"{self.name}: {len(rows)} rows"}
        if self.sheet.add_table(top, 0, top + len(rows), len(columns) - 1, options):
            raise ValueError(f"no table can stand there, or a heading stands twice: {', '.join(c.heading for c in columns)}")
        for index, column in enumerate(columns):
            self.widths[index] = max(self.widths.get(index, 0), column.least, head_room(column.heading))
            self._least[index] = max(self._least.get(index, 0), column.least, head_room(column.heading))
            self._headings.append((index, column.heading))
        tall = max(lines(c.heading, inside(self.widths[i]) / BOLDER) for i, c in enumerate(columns))
        self.tall(top, max(20, tall * _LINE_POINTS + 3))
        looks = [c.style for c in columns]
        for number, row in enumerate(rows, top + 1):
            for index, (value, look) in enumerate(zip(row, looks, strict=True)):
                self.put(number, index, value, look)
        for index, column in enumerate(columns):
            values = {row[index] for row in rows}
            self.widths[index] = max(self.widths[index], need(column, values, self.book.digits))
            if column.style in FIGURES:
                self._least[index] = self.widths[index]
        self._tables.append((top, looks, rows))
        return top + len(rows) + 1

    def fit(self) -> None:
        """Fits the sheet to the width of a page in every program, though some then end pages where they like."""
        self._fitted = True

    def keep(self, first: int, last: int) -> None:
        """Rows that are printed on one page."""
        self.kept.append((first, last))
        self._last = max(self._last, last)

    def print_as(self, top: int, footer: str, landscape: bool = True, header: str = "") -> None:
        """Row `top` repeated on each page (0 none), pages numbered, one page wide; `header` stands on each page."""
        sheet = self.sheet
        if landscape:
            sheet.set_landscape()
        sheet.set_paper(self.book.paper)
        sheet.set_margins(left=paper.SIDES, right=paper.SIDES, top=paper.TOP, bottom=paper.BOTTOM)
        if top:
            sheet.repeat_rows(top)
        self._print = (top, landscape)
        words = fitted(clean(footer).replace("\n", " "), 46).replace("&", "&&")
        sheet.set_footer(f"&L&8 {words}&C&8Page &P of &N&R&8{self.name}", {"scale_with_doc": False})
        if header:
            sheet.set_header(f"&C&8 {header.replace('&', '&&')}", {"scale_with_doc": False})

    def close(self) -> None:
        """Sets the widths, and writes the paragraphs; rows get the heights that the widths ask for.

        The heights are written out since not every program works them out by itself.
        """
        for column, heading in self._headings:
            self.widths[column] = unparted(heading, self.widths[column])
        if self._print and self._tables:
            wide, _ = paper.usable(self.book.paper, self._print[1])
            self.widths = paper.narrowed(self.widths, self._least, wide)
        for column, room in self.widths.items():
            self.sheet.set_column(column, column, room)
        for paragraph in self._paragraphs:
            self._write(*paragraph)
        for top, names, rows in self._tables:
            self._row_heights(top, names, rows)
        for row, column, text, style in self._wrapped:
            tall = lines(text, inside(self.widths[column]) / _bolder(style)) * _LINE_POINTS + 2
            self.tall(row, max(tall, self._heights.get(row, 0)))
        for row, tall in sorted(self._heights.items()):
            self.sheet.set_row(row, min(tall, _MOST_POINTS))
        if self._print:
            self._lay_out(*self._print)

    def _write(self, row: int, first: int, last: int | None, text: str, style: str) -> None:
        until, room = self._span(first, last)
        size = styles.STYLES[style].get("font_size", 10)
        count = lines(text, room * SURE * 10 / size / _bolder(style))
        if until > first and count == 1 and f"{style}_line" in styles.STYLES:
            style = f"{style}_line"  # runs over the empty cells beside it, which need not be merged
        elif until > first:
            self.sheet.merge_range(row, first, row, until, "", self.book.format(style))
        self.put(row, first, text, style)
        self.tall(row, max(count * _LINE_POINTS * size / 10 + 2, self._heights.get(row, 0)))

    def _row_heights(self, top: int, looks: Sequence[str], rows: Sequence[Row]) -> None:
        rooms = [inside(self.widths[i]) / (BOLDER if look in BOLD else 1) for i, look in enumerate(looks)]
        for number, row in enumerate(rows, top + 1):
            tall = 1
            for value, room in zip(row, rooms, strict=True):
                text = value.value if type(value) is As else value
                if type(text) is str and (len(text) > room / _WIDEST or not text.isascii()):
                    tall = max(tall, lines(text, room))
            if tall > 1:
                self.tall(number, tall * _LINE_POINTS + 1)

    def _lay_out(self, top: int, landscape: bool) -> None:
        """Fits the sheet to a page where that can be read, else to the width of one; rows kept together end pages."""
        wide, high = paper.usable(self.book.paper, landscape)
        scale = paper.scale(sum(paper.pixels(room) for room in self.widths.values()), wide)
        heights = [self._heights[row] * 4 / 3 if row in self._heights else _ROW for row in range(self._last + 1)]
        breaks = paper.down(heights, self.kept, high * 100 / scale, top)
        if sum(heights) <= high * 100 / min(scale, paper.LEAST):  # one page can be read, and holds it all
            self.sheet.fit_to_pages(1, 1)
            return
        if breaks and not self._fitted:
            self.sheet.set_print_scale(scale)
        else:
            self.sheet.fit_to_pages(1, 0)
        if breaks:
            self.sheet.set_h_pagebreaks(breaks)

    def _span(self, first: int, last: int | None) -> tuple[int, float]:
        """Last column of a paragraph, and its room: no wider than the page's tables, where it has some."""
        room, column = 0.0, first
        edge = max(self.widths) if self._tables else None
        while True:
            room += self.widths.get(column, 8.43)
            if column == last or (last is None and (room >= _ROOM or (column == edge and room >= _LEAST_ROOM))):
                return column, room
            column += 1


def _bolder(style: str) -> float:
    """How much more room letters of a style take."""
    return BOLDER if styles.STYLES[style].get("bold") else 1.0
