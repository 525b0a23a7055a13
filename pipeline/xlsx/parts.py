"""A workbook that writes its costly and its constant parts in fewer steps; the bytes mean the same."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

import xlsxwriter
from xlsxwriter.packager import Packager

from pipeline.xlsx.looks import Looks, options
from pipeline.xlsx.package import packed
from pipeline.xlsx.quick import QuickWorksheet
from pipeline.xlsx.strings import Strings
from pipeline.xlsx.tables import part

_CONSTANT = frozenset({"xl/styles.xml", "xl/theme/theme1.xml", "_rels/.rels"})


class QuickWorkbook(xlsxwriter.Workbook):
    """The spreadsheet library's workbook with sheets of ours and formats that all workbooks share."""

    def __init__(self, looks: Looks, texts: Sequence[str] = ()) -> None:
        super().__init__(io.BytesIO(), options())
        self.looks = looks
        self.str_table = Strings(texts)
        self.packed = b""
        """The workbook's bytes, once it is closed."""

    def add_worksheet(self, name: str | None = None, worksheet_class: Any = QuickWorksheet) -> Any:
        """A new sheet at the end."""
        sheet = super().add_worksheet(name, worksheet_class)
        sheet.looks = self.looks
        return sheet

    def forget(self) -> None:
        """Lets go of everything: sheets and workbook hold each other, and would wait for the garbage collector."""
        for sheet in self.worksheets():
            sheet.__dict__.clear()
        self.__dict__.clear()

    def _get_packager(self) -> Packager:
        return _Packager()


class _Packager(Packager):
    """Hands the parts over packed; the library itself then writes an empty file, which is dropped."""

    def _create_package(self) -> list[Any]:
        parts = ((name, text.getvalue()) for text, name, _ in super()._create_package())
        self.workbook.packed = packed(parts, _CONSTANT)
        return []

    def _write_shared_strings_file(self) -> None:
        if self.workbook.str_table.count:
            self._filename("xl/sharedStrings.xml").write(self.workbook.str_table.xml())

    def _write_table_files(self) -> None:
        tables = [table["framed"] for sheet in self.workbook.worksheets() for table in sheet.tables]
        for number, table in enumerate(tables, 1):
            self._filename(f"xl/tables/table{number}.xml").write(part(number, table))

    def _write_styles_file(self) -> None:
        self._filename("xl/styles.xml").write(self.workbook.looks.styles)

    def _write_theme_file(self) -> None:
        self._filename("xl/theme/theme1.xml").write(self.workbook.looks.theme)
