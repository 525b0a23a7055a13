"""A workbook and its pages: tables, paragraphs, print set-up. The only place that knows the spreadsheet library."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from decimal import Decimal
from typing import Any

from xlsxwriter.url import Url

from pipeline.books import styles
from pipeline.books.cells import RIGHT, As, Col, Formula, Link, Row, room_of
from pipeline.books.looks import looks
from pipeline.books.parts import QuickWorkbook
from pipeline.books.text import clean, fitted, lines

LETTER, A4 = 1, 9
"""Paper sizes. Source: ECMA-376 part 1, 18.3.1.63 pageSetup."""
_LINE_POINTS = 13.2
_MOST_POINTS = 409.0
"""Tallest row [pt]. Source: Excel specifications and limits, Microsoft."""
_USABLE = {LETTER: 880.0, A4: 940.0}
"""Width of a landscape page within our margins [pixels], less what some programs make columns wider by."""
_ROOM = 104
"""Width of a paragraph on a page of tables [digit widths]."""


class Book:
    """A workbook in memory; the same calls give the same bytes."""

    def __init__(self, title: str, subject: str, date: str, program: str, digits: int = 2) -> None:
        self.workbook = QuickWorkbook(looks(digits))
        made = datetime.fromisoformat(date)
        self.workbook.set_properties(
            {"title": clean(title)[:255], "subject": clean(subject)[:255], "comments": clean(program)[:255], "created": made}
        )
        self.digits = digits
        self._pages: list[Page] = []

    def format(self, name: str) -> Any:
        """The format of a style, as the spreadsheet library takes it."""
        return self.workbook.looks.formats[name]

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
            page.settle()
        self.workbook.close()
        made: bytes = self.workbook.packed
        self.workbook.forget()
        return made


class Page:
    """One sheet that is filled from the top; widths and heights are settled when the book is closed."""

    def __init__(self, book: Book, sheet: Any, name: str) -> None:
        self.book = book
        self.sheet = sheet
        self.name = name
        self.widths: dict[int, float] = {}
        self._paragraphs: list[tuple[int, int, int | None, str, str]] = []
        self._tables: list[tuple[int, list[str], Sequence[Row]]] = []
        self._split: tuple[int, float] | None = None

    def put(self, row: int, column: int, value: Any, style: str) -> None:
        """Writes one value; text never becomes a formula, a number that is not known becomes words."""
        kind = type(value)
        if kind is str:
            self.sheet.text(row, column, value, style)
        elif kind is int or kind is float:
            if value - value == 0:  # neither NaN nor infinite
                self.sheet.number(row, column, value, style)
            else:
                self.put(row, column, "not known" if value != value else "infinite", "right")
        elif value is None:
            self.sheet.blank(row, column, style)
        elif kind is As:
            self.put(row, column, value.value, value.style)
        elif kind is Formula:
            self.sheet.write_formula(row, column, value.formula, self.book.format(style), value.result)
        elif kind is Link:
            self._link(row, column, value)
        elif kind is Decimal:
            self.put(row, column, float(value), style)
        else:
            raise TypeError(f"no cell can hold {value!r}")

    def _link(self, row: int, column: int, link: Link) -> None:
        words, look = clean(link.text), self.book.format("link")
        target = Url(link.url)
        if link.url.startswith("external:"):
            # The library writes backslashes for cells and a URI for pictures. A part's target is a URI.
            # Source: ECMA-376 part 2, relationships.
            target._set_object_link()
        target.text = words
        if self.sheet.write_url(row, column, target, look):
            self.sheet.write_string(row, column, words, look)

    def title(self, text: str, column: int = 0) -> None:
        """The sheet's title, in its first row; it runs over the empty cells beside it."""
        self.sheet.tall(0, 24)
        self.put(0, column, text, "sheet_title")

    def section(self, row: int, text: str, columns: int = 6) -> int:
        """A heading within the sheet; returns the next row."""
        for column in range(1, columns):
            self.put(row, column, None, "section")
        self.put(row, 0, text, "section")
        self.sheet.tall(row, 20)
        return row + 1

    def para(self, row: int, text: str, style: str = "para", first: int = 0, last: int | None = None) -> int:
        """A paragraph across columns, tall enough for its text; returns the next row."""
        self._paragraphs.append((row, first, last, clean(text), style))
        return row + 1

    def paras(self, row: int, texts: Iterable[str], style: str = "para") -> int:
        """Paragraphs one below the other; returns the next row."""
        for text in texts:
            row = self.para(row, text, style)
        return row

    def table(self, top: int, name: str, columns: Sequence[Col], rows: Sequence[Row], told: str = "") -> int:
        """A real table with filters, its heading row at `top`; returns the row after it.

        `told` is its description for those who cannot see it. `rows` must not be empty: a page
        without rows says so in words instead.
        """
        self._heading(top, columns)
        self.sheet.rows(top + 1, [c.style for c in columns], rows, self.put)
        self.sheet.framed(top, len(rows), name, [c.heading for c in columns], told or f"{self.name}: {len(rows)} rows")
        self._measure(columns, rows)
        self._tables.append((top, [c.style for c in columns], rows))
        return top + len(rows) + 1

    def _heading(self, top: int, columns: Sequence[Col]) -> None:
        for index, column in enumerate(columns):
            self.put(top, index, column.heading, "head_right" if column.style in RIGHT else "head")
            words = column.heading.split(" ")
            room = max(column.least, max(len(w) for w in words) + 4, len(column.heading) // 3 + 5)
            self.widths[index] = max(self.widths.get(index, 0), room)
        tall = max(lines(c.heading, self.widths[i] - 4) for i, c in enumerate(columns))
        self.sheet.tall(top, max(20, tall * _LINE_POINTS + 6))

    def _measure(self, columns: Sequence[Col], rows: Sequence[Row]) -> None:
        for index, column in enumerate(columns):
            seen = {row[index] for row in rows}
            need = max((room_of(value, self.book.digits) for value in seen), default=0) + 2
            self.widths[index] = max(self.widths[index], min(need + 1, column.most))

    def print_as(self, top: int, footer: str, landscape: bool = True, paper: int = A4, split: int = 0) -> None:
        """Row `top` repeated on each page, pages numbered; one page wide, or two where `split` is given.

        `split` is the first column of the right-hand pages; it names the row again.
        """
        sheet = self.sheet
        if landscape:
            sheet.set_landscape()
        sheet.set_paper(paper)
        sheet.set_margins(left=0.5, right=0.5, top=0.6, bottom=0.7)
        sheet.repeat_rows(top)
        if split:
            sheet.print_across()
            sheet.set_v_pagebreaks([split])
            self._split = (split, _USABLE[paper])
        else:
            sheet.fit_to_pages(1, 0)
        words = fitted(clean(footer).replace("\n", " "), 46).replace("&", "&&")
        sheet.set_footer(f"&L&8 {words}&C&8Page &P of &N&R&8{self.name}")

    def settle(self) -> None:
        """Sets the widths, and writes the paragraphs; rows get the heights that the widths ask for.

        The heights are written out since not every program works them out by itself.
        """
        for column, room in self.widths.items():
            self.sheet.set_column(column, column, room)
        heights: dict[int, float] = {}
        for row, first, last, text, style in self._paragraphs:
            until, room = self._span(first, last)
            if until > first:
                self.sheet.merged(row, first, until, style)
            self.sheet.text(row, first, text, style)
            size = styles.STYLES[style].get("font_size", 10)
            tall = lines(text, room * _letters(style) * 10 / size) * _LINE_POINTS * size / 10 + 2
            heights[row] = max(tall, heights.get(row, 0))
        for top, names, rows in self._tables:
            self._row_heights(top, names, rows, heights)
        for row, tall in heights.items():
            self.sheet.tall(row, min(tall, _MOST_POINTS))
        if self._split:
            self._fit_two(*self._split)

    def _row_heights(self, top: int, looks: Sequence[str], rows: Sequence[Row], heights: dict[int, float]) -> None:
        rooms = [(self.widths[column] - 2) * _letters(style) for column, style in enumerate(looks)]
        for number, row in enumerate(rows, top + 1):
            tall = 1
            for value, room in zip(row, rooms, strict=True):
                text = value.value if type(value) is As else value
                if type(text) is str and (len(text) > room or not text.isascii()):
                    tall = max(tall, lines(text, room))
            if tall > 1:
                heights[number] = tall * _LINE_POINTS + 1

    def _fit_two(self, split: int, usable: float) -> None:
        sides = range(split), range(split, len(self.widths))
        widest = max(sum(self.widths[c] * 7 + 5 for c in side) for side in sides)
        self.sheet.set_print_scale(max(10, min(100, int(100 * usable / widest))))

    def _span(self, first: int, last: int | None) -> tuple[int, float]:
        room, column = 0.0, first
        while True:
            room += self.widths.get(column, 8.43)
            if column == last or (last is None and room >= _ROOM):
                return column, room
            column += 1


def _letters(style: str) -> float:
    """Letters of running text that go into the width of a digit, with a margin."""
    return 1.0 if styles.STYLES.get(style, {}).get("bold") else 1.15
