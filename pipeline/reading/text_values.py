"""Text of a cell: escapes, characters that no file may carry on, blanks, error words."""

from __future__ import annotations

import re

from pipeline.reading.book import Cell

_NOT_CARRIED = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffe\uffff]")
_ESCAPE = re.compile(r"_x([0-9A-Fa-f]{4})_")
_UNSEEN = "\u200b\u200c\u200d\u2060\ufeff\u00ad\u200e\u200f"
_ERROR = re.compile(
    r"#(?:N/A|N/D|N/B|NV|GETTING_DATA)|#[¡¿]?(?=.{0,12}[A-Z]{2})[A-ZÀ-Þ0-9/_]{2,12}[!?]|(?:Err|Fehler):[0-9]{3}|#{3,}"
)
"""Error values as programs show them. Source: ISO/IEC 29500-1 18.17.3 error values; other languages' words: common practice."""


def printable(text: str) -> str:
    """The text with characters that XML, CSV or a screen cannot carry shown as U+FFFD, never dropped."""
    return _NOT_CARRIED.sub("\ufffd", text) if _NOT_CARRIED.search(text) else text


def unescape(text: str) -> str:
    """Text of a workbook part with `_x000D_` and the like decoded.

    Source: ISO/IEC 29500-1 22.9.2.19, ST_Xstring.
    """
    if "_x" not in text:
        return text
    raw = _ESCAPE.sub(lambda m: chr(int(m[1], 16)), text)
    return raw.encode("utf-16-le", "surrogatepass").decode("utf-16-le", "replace")


def is_blank(text: str) -> bool:
    """Nothing that can be seen: spaces of any kind, line ends, marks without width."""
    return not text or not text.strip() or not text.strip(_UNSEEN).strip()


def is_error(text: str) -> bool:
    """An error value written out: `#N/A`, `#REF!`, `Err:502`, `####`."""
    text = text.strip()
    return text[:1] in "#EF" and _ERROR.fullmatch(text) is not None


def text_cell(row: int, column: int, text: str, unit: str = "") -> Cell | None:
    """A cell of text; None where it is blank, an error where it spells one."""
    if is_blank(text):
        return None
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    text = printable(text)
    if is_error(text):
        return Cell(row, column, "error", text.strip())
    return Cell(row, column, "text", text, unit)
