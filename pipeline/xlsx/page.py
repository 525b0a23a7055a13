"""A workbook and its pages: tables, paragraphs, print set-up. The only place that knows the spreadsheet library."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from decimal import Decimal
from itertools import zip_longest
from typing import Any

from xlsxwriter.url import Url

from pipeline.xlsx import paper, styles
from pipeline.xlsx.looks import looks
from pipeline.xlsx.paper import A4
from pipeline.xlsx.parts import QuickWorkbook
from pipeline.xlsx.stencil import Stencil
from pipeline.xlsx.values import BOLD, RIGHT, As, Band, Col, Formula, Link, Row
from pipeline.xlsx.widths import SURE, head_room, inside, need, unparted, widths_of
from pipeline.xlsx.wrap import BOLDER, clean, fitted, lines

_LINE_POINTS = 13.2
_MOST_POINTS = 409.0
"""Tallest row [pt]. Source: Excel specifications and limits, Microsoft."""
_ROOM = 104
"""Width of a paragraph on a page of tables [digit widths]."""
_WIDEST = 1.85
"""A letter takes no more room than this [digit widths]."""
STACKED = 14
"""Most rows of a wide table whose parts are printed one below the other, so that no page is nearly empty."""


class Book:
    """A workbook in memory; the same calls give the same bytes."""

    def __init__(
        self, title: str, subject: str, date: str, program: str, digits: int = 2, stencil: Stencil | None = None
    ) -> None:
        self.workbook = QuickWorkbook(looks(digits), stencil.texts if stencil else ())
        self.stencil = stencil
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
        self._bands: list[int] = []  # first columns of the parts that stand side by side
        self.kept: list[tuple[int, int]] = []
        self._print: tuple[int, int, bool] | None = None
        self._headings: list[tuple[int, str]] = []
        self._fitted = False  # one page wide whatever the program makes of the widths; it may then pass breaks over

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

    def bands(self, top: int, name: str, bands: Sequence[Band], told: str) -> tuple[int, bool]:
        """A table too wide for one page; returns the row after it, and whether its parts stand one below the other.

        With few rows each part is a table of its own below the one before; else the parts stand side by
        side in one table, and each is printed on a page of its own.
        """
        if not self.stacks(bands):
            self._bands = [sum(len(b.columns) for b in bands[:i]) for i in range(len(bands))]
            for band, column in zip(bands[1:], self._bands[1:], strict=True):
                self.title(band.title, column)
            rows = [[value for part in parts for value in part] for parts in zip(*(b.rows for b in bands), strict=True)]
            return self.table(top, name, [c for b in bands for c in b.columns], rows, told), False
        row = top
        for index, band in enumerate(bands):
            first = row
            if index:
                row = self.section(row + 1, band.title, len(band.columns))
            row = self.table(row, f"{name}_{index + 1}" if index else name, band.columns, band.rows, told)
            self.keep(first, row - 1)
        return row, True

    def fit(self) -> None:
        """Fits the sheet to the width of a page in every program, though some then end pages where they like."""
        self._fitted = True

    def keep(self, first: int, last: int) -> None:
        """Rows that are printed on one page."""
        self.kept.append((first, last))

    def _heading(self, top: int, columns: Sequence[Col]) -> None:
        for index, column in enumerate(columns):
            self.put(top, index, column.heading, "head_right" if column.style in RIGHT else "head")
            self.widths[index] = max(self.widths.get(index, 0), column.least, head_room(column.heading))
            self._headings.append((index, column.heading))
        tall = max(lines(c.heading, inside(self.widths[i]) / BOLDER) for i, c in enumerate(columns))
        self.sheet.tall(top, max(20, tall * _LINE_POINTS + 3))

    def _measure(self, columns: Sequence[Col], rows: Sequence[Row]) -> None:
        for index, column in enumerate(columns):
            self.widths[index] = max(self.widths[index], need(column, {row[index] for row in rows}, self.book.digits))

    def stacks(self, bands: Sequence[Band]) -> bool:
        """Whether the parts of a wide table are few rows, and readable one below the other."""
        if len(bands[0].rows) > STACKED:
            return False
        each = [widths_of(band.columns, band.rows, self.book.digits) for band in bands]
        together = [max(widths) for widths in zip_longest(*each, fillvalue=0.0)]
        room, _ = paper.usable(paper.LETTER, landscape=True)
        return paper.scale(sum(paper.pixels(w) for w in together), room) >= paper.LEAST

    def print_as(self, top: int, footer: str, landscape: bool = True, on: int = A4) -> None:
        """Row `top` repeated on each page (0 none), pages numbered, one page wide save where parts stand side by side."""
        sheet = self.sheet
        if landscape:
            sheet.set_landscape()
        sheet.set_paper(on)
        sheet.set_margins(left=paper.SIDES, right=paper.SIDES, top=paper.TOP, bottom=paper.BOTTOM)
        if top:
            sheet.repeat_rows(top)
        self._print = (top, on, landscape)
        words = fitted(clean(footer).replace("\n", " "), 46).replace("&", "&&")
        sheet.set_footer(f"&L&8 {words}&C&8Page &P of &N&R&8{self.name}", {"scale_with_doc": False})

    def settle(self) -> None:
        """Sets the widths, and writes the paragraphs; rows get the heights that the widths ask for.

        The heights are written out since not every program works them out by itself.
        """
        for column, heading in self._headings:
            self.widths[column] = unparted(heading, self.widths[column])
        for column, room in self.widths.items():
            self.sheet.set_column(column, column, room)
        heights: dict[int, float] = {}
        for row, first, last, text, style in self._paragraphs:
            until, room = self._span(first, last)
            if until > first:
                self.sheet.merged(row, first, until, style)
            self.sheet.text(row, first, text, style)
            size = styles.STYLES[style].get("font_size", 10)
            bold = BOLDER if styles.STYLES[style].get("bold") else 1.0
            tall = lines(text, room * SURE * 10 / size / bold) * _LINE_POINTS * size / 10 + 2
            heights[row] = max(tall, heights.get(row, 0))
        for top, names, rows in self._tables:
            self._row_heights(top, names, rows, heights)
        for row, tall in heights.items():
            self.sheet.tall(row, min(tall, _MOST_POINTS))
        if self._print:
            self._lay_out(*self._print)

    def _row_heights(self, top: int, looks: Sequence[str], rows: Sequence[Row], heights: dict[int, float]) -> None:
        rooms = [inside(self.widths[i]) / (BOLDER if look in BOLD else 1) for i, look in enumerate(looks)]
        for number, row in enumerate(rows, top + 1):
            tall = 1
            for value, room in zip(row, rooms, strict=True):
                text = value.value if type(value) is As else value
                if type(text) is str and (len(text) > room / _WIDEST or not text.isascii()):
                    tall = max(tall, lines(text, room))
            if tall > 1:
                heights[number] = tall * _LINE_POINTS + 1

    def _lay_out(self, top: int, on: int, landscape: bool) -> None:
        """Fits the sheet to the width of a page; parts set side by side and rows kept together end pages."""
        wide, high = paper.usable(on, landscape)
        ends = [*self._bands[1:], (self.sheet.dim_colmax or 0) + 1]
        sides = [range(a, b) for a, b in zip(self._bands or [0], ends, strict=True)]
        begins, widest = paper.across([sum(paper.pixels(self.widths.get(c, 8.43)) for c in side) for side in sides], wide)
        scale = paper.scale(widest, wide)
        sizes, usual = self.sheet.row_sizes, self.sheet.default_row_height
        last = max([self.sheet.dim_rowmax or 0, *(end for _, end in self.kept)])
        heights = [sizes[row][0] if row in sizes else usual for row in range(last + 1)]
        breaks = paper.down(heights, self.kept, high * 100 / scale, top)
        if (begins or breaks) and not self._fitted:
            self.sheet.set_print_scale(scale)
        else:
            self.sheet.fit_to_pages(1, 0)
        if begins:
            self.sheet.print_across()
            self.sheet.set_v_pagebreaks([self._bands[i] for i in begins])
        if breaks:
            self.sheet.set_h_pagebreaks(breaks)

    def _span(self, first: int, last: int | None) -> tuple[int, float]:
        room, column = 0.0, first
        while True:
            room += self.widths.get(column, 8.43)
            edge = self._bands and column + 1 in self._bands
            if column == last or (last is None and (room >= _ROOM or edge)):
                return column, room
            column += 1
