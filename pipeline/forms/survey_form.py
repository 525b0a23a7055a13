"""The empty survey: a sheet to fill in, a worked example, and what to measure where."""

from __future__ import annotations

from typing import Any

from pipeline.forms.form_parts import Form, landscape, lines, validate
from pipeline.forms.form_words import LABELS
from pipeline.forms.measure_drawing import draw
from schemas.survey import NOTHING_IS_READ, SURVEY
from schemas.words import CAUTION, ON_SITE_CHECKS

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


def build() -> bytes:
    """The workbook."""
    form = Form("Survey of standing posts")
    _survey(form)
    _example(form)
    _measure(form)
    return form.done()


def _survey(form: Form) -> None:
    """The sheet to fill in: whether a column is needed, its heading with its unit, empty rows with drop-downs."""
    ws = form.book.add_worksheet("Survey")
    top = 3
    ws.write_string(0, 0, "Survey of standing posts", form.title)
    ws.write_string(
        1, 0, "One row for each post, or for a number of posts that are alike in everything. Amber columns are needed.", form.line
    )
    ws.set_row(0, 24)
    ws.set_row(top, 62)
    for at, column in enumerate(SURVEY.columns):
        ws.write_string(top - 1, at, "needed" if column.needed else "if known", form.mark_needed if column.needed else form.mark)
        ws.write_string(top, at, column.titled, form.head)
        ws.set_column(at, at, _WIDTHS.get(column.name, NARROW))
        validate(ws, column, top + 1, at, top + ROWS)
        for row in range(top + 1, top + 1 + ROWS):
            ws.write_blank(row, at, None, form.format(column))
    last = len(SURVEY.columns) - 1
    ws.ignore_errors({"number_stored_as_text": f"A1:AZ{top + 1 + ROWS}"})
    ws.freeze_panes(top + 1, _at("post_code") + 1)
    ws.set_paper(3)  # 11 x 17 in: thirty columns on a smaller sheet are hard to read; any printer can reduce it
    landscape(ws, top, last, top + ROWS)
    ws.repeat_rows(top - 1, top)


def _at(name: str) -> int:
    return SURVEY.names.index(name)


def _example(form: Form) -> None:
    """The worked example, one line a column, so that it is never taken for a post."""
    ws = form.book.add_worksheet("Example")
    ws.write_string(0, 0, "A worked example: the row of one post, told column by column", form.title)
    ws.write_string(1, 0, f"{NOTHING_IS_READ} Type on the sheet Survey.", form.fine)
    heads = ("What it is called", "Whether needed", "For example", "What it means", "Choose one of")
    for at, (head, width) in enumerate(zip(heads, (28, 11, 28, 76, 46), strict=True)):
        ws.write_string(3, at, head, form.head)
        ws.set_column(at, at, width)
    ws.set_row(3, 32)
    for row, column in enumerate(SURVEY.columns, 4):
        shown = EXAMPLE.get(column.name, "")
        texts = (
            column.titled,
            "needed" if column.needed else "if known",
            shown or "(blank)",
            column.help,
            ", ".join(column.values),
        )
        ws.set_row(row, 16 * max(lines(column.help, 72), lines(texts[-1], 42), lines(shown, 26)))
        for at, text in enumerate(texts):
            ws.write_string(row, at, text, form.cell_needed if column.needed and at < 3 else form.cell)
    ws.freeze_panes(4, 0)
    landscape(ws, 3, len(heads) - 1, 3 + len(SURVEY.columns))
    ws.fit_to_pages(1, 1)


def _measure(form: Form) -> None:
    """The drawing with its numbered labels, the checks on site and the caution."""
    ws = form.book.add_worksheet("What to measure")
    ws.hide_gridlines(2)
    ws.set_column(0, 0, 4)
    ws.set_column(1, 1, 30)
    ws.set_column(2, 2, 88)
    ws.write_string(0, 0, "What to measure, and where", form.title)
    ws.write_string(1, 0, "Seen from the side. Drawn to scale: a post of 8 ft 6 in, 3 1/2 in across.", form.fine)
    ws.set_row(0, 24)
    row = draw(ws, 2) + 1
    for number, (heading, text) in enumerate(LABELS, 1):
        _pair(ws, form, row, str(number), heading, text)
        row += 1
    row += 1
    ws.write_string(row, 0, "Look at this on site as well", form.bold_line)
    for heading, text in ON_SITE_CHECKS:
        row += 1
        _pair(ws, form, row, "☐", heading, text)
    ws.merge_range(row + 2, 0, row + 2, 2, CAUTION, form.plain)
    ws.set_row(row + 2, 48)
    ws.set_portrait()
    ws.set_margins(left=0.4, right=0.4, top=0.4, bottom=0.6)
    ws.fit_to_pages(1, 1)
    ws.print_area(0, 0, row + 2, 2)
    ws.set_footer("&L&F&C&A&RPage &P of &N")


def _pair(ws: Any, form: Form, row: int, mark: str, heading: str, text: str) -> None:
    ws.write_string(row, 0, mark, form.bold)
    ws.write_string(row, 1, heading, form.bold)
    ws.write_string(row, 2, text, form.plain)
    ws.set_row(row, 16 * lines(text, 88))
