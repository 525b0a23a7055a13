"""The empty survey: a sheet to fill in, a worked example, and what to measure where."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pipeline.forms.form_languages import PROSE, Prose
from pipeline.forms.form_parts import Form, landscape, lines, validate
from pipeline.forms.form_words import LABELS
from pipeline.forms.measure_drawing import draw
from pipeline.forms.survey_columns import columns, language_of, word
from schemas.column import Column
from schemas.languages import Language
from schemas.survey import SURVEY

ROWS = 60
"""Empty rows that the form has formats and drop-downs for."""

EXAMPLE: dict[str, str] = {
    "site_code": "HOLLOW-1",
    "site_name": "Hollow Lane Primary School",
    "customer": "Northmere Schools",
    "site_kind": "school",
    "post_code": "East 1",
    "quantity": "2",
    "post_shape": "round",
    "post_size": "11 in",
    "size_basis": "circumference",
    "measured_with": "tape round the post",
    "material": "steel",
    "post_height": "8' 6 1/2\"",
    "height_measured_with": "tape",
    "court_rise": "1 1/2",
    "clear_length": "40",
    "post_line": "straight",
    "post_base": "cast in",
    "lean": "1/4 in per ft",
    "old_fittings": "removable",
    "condition": "surface rust",
    "ring_heights": "10 ft; 8 ft",
    "least_board_width": "48",
    "post_to_end_line": "2",
    "soil_class": "4",
    "notes": "two lights on the fence, gate 3 m wide",
}
"""One row as a caretaker would fill it in; a scenario of our own."""

METRIC_EXAMPLE: dict[str, str] = {
    "post_size": "280 mm", "post_height": "2,60", "court_rise": "40", "clear_length": "1000", "lean": "10 mm/m",
    "ring_heights": "3,05; 2,60", "least_board_width": "1200", "post_to_end_line": "0,60", "notes": "",
}  # fmt: skip
"""The same where people measure in metres."""

NARROW = 8.5
_WIDTHS = {
    "site_name": 17,
    "customer": 13,
    "notes": 20,
    "measured_with": 12,
    "size_basis": 12,
    "ring_heights": 11,
    "post_base": 10,
}


def build(code: str = "en", rows: Sequence[Mapping[str, str]] = ()) -> bytes:
    """The workbook in the language of that code, with what is known of `rows` filled in."""
    language, prose = language_of(code), PROSE[code]
    shown = columns(language)
    form = Form(prose.title)
    _survey(form, shown, prose, rows)
    _example(form, shown, prose, language)
    _measure(form, shown, prose)
    return form.done()


def _survey(form: Form, shown: tuple[Column, ...], prose: Prose, rows: Sequence[Mapping[str, str]]) -> None:
    """The sheet to fill in: whether a column is needed, its heading with its unit, rows with drop-downs."""
    ws = form.book.add_worksheet(prose.sheets[0])
    top, count = 3, max(ROWS, len(rows))
    ws.write_string(0, 0, prose.title, form.title)
    ws.write_string(1, 0, prose.rows, form.line)
    ws.set_row(0, 24)
    ws.set_row(top, 62)
    for at, column in enumerate(shown):
        mark = form.mark_needed if column.needed else form.mark
        ws.write_string(top - 1, at, prose.needed if column.needed else prose.if_known, mark)
        ws.write_string(top, at, column.titled, form.head)
        ws.set_column(at, at, _WIDTHS.get(column.name, NARROW))
        validate(ws, column, top + 1, at, top + count, prose.needed.capitalize())
        for n in range(count):
            known = rows[n].get(column.name, "") if n < len(rows) else ""
            if known:
                ws.write_string(top + 1 + n, at, known, form.format(column))
            else:
                ws.write_blank(top + 1 + n, at, None, form.format(column))
    ws.ignore_errors({"number_stored_as_text": f"A1:AZ{top + 1 + count}"})
    ws.freeze_panes(top + 1, _at("post_code") + 1)
    ws.set_paper(3)  # 11 x 17 in: thirty columns on a smaller sheet are hard to read; any printer can reduce it
    landscape(ws, top, len(shown) - 1, top + count)
    ws.repeat_rows(top - 1, top)


def _at(name: str) -> int:
    return SURVEY.names.index(name)


def _example(form: Form, shown: tuple[Column, ...], prose: Prose, language: Language) -> None:
    """The worked example, one line a column, so that it is never taken for a post."""
    ws = form.book.add_worksheet(prose.sheets[1])
    ws.write_string(0, 0, prose.example[0], form.title)
    ws.write_string(1, 0, prose.example[1], form.fine)
    for at, (head, width) in enumerate(zip(prose.heads, (28, 11, 28, 76, 46), strict=True)):
        ws.write_string(3, at, head, form.head)
        ws.set_column(at, at, width)
    ws.set_row(3, 32)
    filled = example(language)
    for row, column in enumerate(shown, 4):
        typed = filled.get(column.name, "")
        needed = prose.needed if column.needed else prose.if_known
        texts = (column.titled, needed, typed or prose.blank, column.help, ", ".join(column.values))
        ws.set_row(row, 16 * max(lines(column.help, 72), lines(texts[-1], 42), lines(typed, 26)))
        for at, text in enumerate(texts):
            ws.write_string(row, at, text, form.cell_needed if column.needed and at < 3 else form.cell)
    ws.freeze_panes(4, 0)
    landscape(ws, 3, len(prose.heads) - 1, 3 + len(shown))
    ws.fit_to_pages(1, 1)


def example(language: Language) -> dict[str, str]:
    """The example's row as somebody who speaks `language` would fill it in."""
    if not language.headings:
        return EXAMPLE
    return {name: word(SURVEY.column(name), METRIC_EXAMPLE.get(name, typed), language) for name, typed in EXAMPLE.items()}


def _measure(form: Form, shown: tuple[Column, ...], prose: Prose) -> None:
    """The drawing with its numbered labels, the checks on site and the caution."""
    ws = form.book.add_worksheet(prose.sheets[2])
    ws.hide_gridlines(2)
    ws.set_column(0, 0, 4)
    ws.set_column(1, 1, 30)
    ws.set_column(2, 2, 88)
    ws.write_string(0, 0, prose.measure[0], form.title)
    ws.write_string(1, 0, prose.measure[1], form.fine)
    ws.set_row(0, 24)
    row = draw(ws, 2, prose.captions) + 1
    for number, (heading, text) in enumerate(_labels(shown), 1):
        _pair(ws, form, row, str(number), heading, text)
        row += 1
    row += 1
    ws.write_string(row, 0, prose.look, form.bold_line)
    for heading, text in prose.checks:
        row += 1
        _pair(ws, form, row, "☐", heading, text)
    ws.merge_range(row + 2, 0, row + 2, 2, prose.caution, form.plain)
    ws.set_row(row + 2, 48)
    ws.set_portrait()
    ws.set_margins(left=0.4, right=0.4, top=0.4, bottom=0.6)
    ws.fit_to_pages(1, 1)
    ws.print_area(0, 0, row + 2, 2)
    ws.set_footer("&L&F&C&A&RPage &P of &N")


_LABELLED = (
    ("post_size",), ("post_height",), ("clear_length",), ("court_rise",), ("post_to_end_line",), ("ring_heights",), ("wall",),
    ("footing_diameter", "footing_depth"),
)  # fmt: skip
"""The columns that the drawing's numbers stand for, in their order."""


def _labels(shown: tuple[Column, ...]) -> tuple[tuple[str, str], ...]:
    """What the numbers in the drawing stand for: in English at length, elsewhere the columns' own help."""
    if shown is SURVEY.columns:
        return LABELS
    by_name = {c.name: c for c in shown}
    return tuple((", ".join(by_name[n].heading for n in names), " ".join(by_name[n].help for n in names)) for names in _LABELLED)


def _pair(ws: Any, form: Form, row: int, mark: str, heading: str, text: str) -> None:
    ws.write_string(row, 0, mark, form.bold)
    ws.write_string(row, 1, heading, form.bold)
    ws.write_string(row, 2, text, form.plain)
    ws.set_row(row, 16 * lines(text, 88))
