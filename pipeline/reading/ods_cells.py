"""One cell of an OpenDocument spreadsheet: its attributes and its displayed text."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pipeline.reading.book import Cell
from pipeline.reading.cell_values import iso_cell
from pipeline.reading.numberformats import PERCENT, number_format
from pipeline.reading.text_values import is_error, text_cell

_DURATION = re.compile(r"-?P(?:(\d+)D)?T?(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)(?:[.,]\d+)?S)?")
_STORED = {
    "float": "value", "percentage": "value", "currency": "value", "boolean": "boolean-value", "date": "date-value",
    "time": "time-value", "string": "string-value",
}  # fmt: skip
"""Attribute that holds a cell's value, by its type. Source: OpenDocument 1.3, part 3, 19.387."""
_FIGURE = re.compile(r"[-+−]?(?:(?:[0-9]+\s)?[0-9]+/[0-9]+|[0-9](?:[.,'’\u00a0\u202f ]?[0-9])*(?:[eE][+-]?[0-9]+)?)")


def paragraph(pieces: list[str]) -> str:
    """Text of a paragraph: spaces and line ends of the markup count as one space, stated ones stand.

    Source: OpenDocument 1.3, part 3, 6.1.2.
    """
    return re.sub(r"[ \t\r\n]+", " ", "".join(pieces)).strip(" ").translate({1: " ", 2: "\t", 3: "\n"})


def ods_cell(attributes: dict[str, str], shown: str) -> Cell | None:
    """One cell at row and column 1; None where it is blank."""
    kind = attributes.get("value-type", "")
    stored = attributes.get(_STORED.get(kind, ""))
    formula = "formula" in attributes
    if "error" in attributes or (formula and is_error(shown)):
        return Cell(1, 1, "error", shown.strip() or "#VALUE!")
    if formula and stored is None and not shown.strip():
        return Cell(1, 1, "no_result", None)
    if not stored or kind == "string":
        return text_cell(1, 1, shown if shown else stored or "")
    if kind in ("float", "percentage", "currency"):
        return _number(stored, kind, shown)
    if kind == "boolean":
        return Cell(1, 1, "bool", stored.lower() == "true")
    if kind == "date":
        return iso_cell(1, 1, stored, shown)
    return Cell(1, 1, "date", _clock(stored), "", shown)


def _number(value: str, kind: str, shown: str) -> Cell | None:
    """A number, with the unit that its display shows around the figure."""
    try:
        number: int | float = float(value)
    except ValueError:
        return text_cell(1, 1, shown or value)
    if number == number and abs(number) < 1e15 and number == int(number):
        number = int(number)
    if kind == "percentage":
        return Cell(1, 1, "number", number, PERCENT, shown)
    if shown.casefold() in ("true", "false"):
        return Cell(1, 1, "bool", shown.casefold() == "true")
    if kind == "currency":
        return Cell(1, 1, "number", number)
    if len(_FIGURE.findall(shown)) > 1:  # digits dealt out to `0' 00"`: what was seen is another number than what is stored
        return text_cell(1, 1, shown)
    unit = _shown_unit(shown)
    if unit == "%" and _is_share(number, shown):
        unit = PERCENT
    tells = unit or re.search(r"\A0[0-9]|[^\W0-9_eE]", shown)
    return Cell(1, 1, "number", number, unit, shown if tells else "")


def _is_share(number: float, shown: str) -> bool:
    """Whether the figure before a percent sign is a hundred times what is stored, as some programs write percentages."""
    figure = _FIGURE.search(shown)
    try:
        seen = float(figure[0].replace(",", ".").replace("−", "-")) if figure else 0.0
    except ValueError:
        return False
    return abs(seen - 100 * number) < abs(seen - number)


def _shown_unit(shown: str) -> str:
    """The unit that stands around the figure of a displayed number, '' without one."""
    figure = _FIGURE.search(shown)
    if figure is None:
        return ""
    before, after = shown[: figure.start()], shown[figure.end() :]
    if not before.strip() and not after.strip():
        return ""
    code = "".join(_quoted(before)) + "0" + "".join(_quoted(after))
    form = number_format(code)
    return form.sections[0].unit if form is not None else ""


def _quoted(text: str) -> Iterator[str]:
    """Text as a literal of a number format."""
    for piece in re.split('(")', text):
        if piece:
            yield '\\"' if piece == '"' else f'"{piece}"'


def _clock(duration: str) -> str:
    """A duration such as `PT08H06M00S` as `08:06:00`."""
    m = _DURATION.fullmatch(duration)
    if m is None:
        return duration
    days, hours, minutes, seconds = (int(g or 0) for g in m.groups())
    return f"{days * 24 + hours:02d}:{minutes:02d}:{seconds:02d}"
