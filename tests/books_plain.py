"""The books' quick paths, done the plain way: every cell, table and box through the spreadsheet library's own calls."""

from __future__ import annotations

import io
import re
from types import SimpleNamespace
from zipfile import ZipFile

import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from pipeline.xlsx import styles
from pipeline.xlsx.looks import NAMES, options
from pipeline.xlsx.values import As
from pipeline.xlsx.wrap import clean


class PlainWorksheet(Worksheet):
    def text(self, row, column, text, style):
        assert not self.write_string(row, column, clean(text), self.looks.formats[style])

    def number(self, row, column, number, style):
        self.write_number(row, column, number, self.looks.formats[style])

    def blank(self, row, column, style):
        self.write_blank(row, column, None, self.looks.formats[style])

    def merged(self, row, first, last, style):
        self.merge_range(row, first, row, last, "", self.looks.formats[style])

    def tall(self, row, points):
        self.set_row(row, points)

    def rows(self, first, styles, rows, other):
        for line, row in enumerate(rows, first):
            for column, (value, style) in enumerate(zip(row, styles, strict=True)):
                other(line, column, *(value if type(value) is As else (value, style)))

    def framed(self, top, rows, name, headings, told):
        looks = [self.table[top][i].format for i in range(len(headings))]
        columns = [{"header": h, "header_format": look} for h, look in zip(headings, looks, strict=True)]
        options = {"name": name, "style": None, "columns": columns, "description": told}
        assert not self.add_table(top, 0, top + rows, len(headings) - 1, options)

    def draw(self, box):
        row, column, x, y, width, height, kind, words, told = box
        place = {"x_offset": x, "y_offset": y, "width": width, "height": height}
        said = {"description": told} if told else {"decorative": True}
        self.insert_textbox(row, column, words, {**kind.look, **place, **said})


class PlainWorkbook(xlsxwriter.Workbook):
    def __init__(self, looks, texts=()):
        super().__init__(io.BytesIO(), options())
        digits = 0 if looks.formats["money"].num_format == "#,##0" else 2
        formats = {name: self.add_format(styles.style(name, digits)) for name in NAMES}
        for look in formats.values():
            look._get_xf_index()
        self.looks = SimpleNamespace(formats=formats)

    def add_worksheet(self, name=None, worksheet_class=PlainWorksheet):
        sheet = super().add_worksheet(name, worksheet_class)
        sheet.looks = self.looks
        return sheet

    @property
    def packed(self):
        return self.filename.getvalue()

    def forget(self):
        pass


def parts(file) -> dict[str, str]:
    """Parts of a workbook, each text where its cell is.

    Left out are hints that a reader can do without: spans of rows, how many cells have a text, the order of the texts.
    """
    with ZipFile(file) as package:
        found = {name: package.read(name).decode() for name in package.namelist()}
    texts = re.findall(r"<si>.*?</si>", found.pop("xl/sharedStrings.xml"), re.DOTALL)
    found["texts"] = "".join(sorted(texts))
    for name, part in found.items():
        if name.startswith("xl/worksheets/sheet"):
            told = re.sub(r' t="s"><v>(\d+)</v>', lambda m: f">{texts[int(m[1])]}", part)
            found[name] = re.sub(r' spans="\d+:\d+"', "", told)
    return found
