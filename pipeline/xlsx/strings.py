"""Texts of a workbook, each kept once; cells name them by number."""

from __future__ import annotations

import io
from collections.abc import Sequence
from functools import lru_cache

from xlsxwriter.sharedstrings import SharedStrings

from pipeline.xlsx.wrap import clean


class Strings(dict[str, int]):
    """Number of each text. An unknown text is made safe and gets the next number.

    It stands in for the spreadsheet library's own table; the methods with an underscore are what that calls.
    """

    def __init__(self, texts: Sequence[str] = ()) -> None:
        super().__init__(zip(texts, range(len(texts)), strict=True))
        self.texts: list[str] = list(texts)
        self.count = 0
        """Cells with a text."""

    def __missing__(self, text: str) -> int:
        tidy = clean(text)
        if tidy == text:
            number = len(self.texts)
            self.texts.append(text)
        else:
            number = self[tidy]
        self[text] = number
        return number

    def xml(self) -> str:
        """The part that lists the texts. Source: ECMA-376 part 1, 18.4.9 sst."""
        head = (
            '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
            '<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" '
            f'count="{self.count}" uniqueCount="{len(self.texts)}">'
        )
        return "".join([head, *map(_item, self.texts), "</sst>"])

    def _get_shared_string_index(self, text: str) -> int:
        self.count += 1
        return self[text]

    def _get_shared_string(self, number: int) -> str:
        return self.texts[number]

    def _sort_string_data(self) -> None:
        pass


@lru_cache(maxsize=8192)  # the same words stand in every workbook
def _item(text: str) -> str:
    """One text as the part has it."""
    if text.isprintable() and "_x" not in text and text == text.strip():
        return "<si><t>" + text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;") + "</t></si>"
    part = SharedStrings()
    part.fh = io.StringIO()
    part._write_si(text)
    return str(part.fh.getvalue())
