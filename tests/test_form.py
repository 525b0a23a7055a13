"""The forms: what a person gets, what comes of it filled in, and the drawing against the figures it shows."""

from __future__ import annotations

import io

import openpyxl
import pytest
from catalogue_made import ROWS as ITEMS

from pipeline.forms import catalogue_form, form_parts, survey_form
from pipeline.forms.form_words import LABELS
from pipeline.forms.measure_drawing import boxes
from pipeline.forms.survey_form import EXAMPLE, ROWS
from pipeline.intake.catalogue import CatalogueFaults, documented_policy, read_catalogue
from pipeline.intake.survey.check import check_path
from pipeline.intake.survey.survey_row import stated
from pipeline.marking import correction_list as mark_list
from schemas import frames
from schemas.catalogue import CATALOGUE
from schemas.policy import SETTINGS
from schemas.survey import SURVEY
from schemas.words import CAUTION, ON_SITE_CHECKS

HEADING_ROW = 4


@pytest.fixture(scope="module")
def form():
    return openpyxl.load_workbook(io.BytesIO(survey_form()))


def _fill(wb, rows, path) -> str:
    ws = wb["Survey"]
    for n, row in enumerate(rows, HEADING_ROW + 1):
        for at, name in enumerate(SURVEY.names, 1):
            ws.cell(n, at).value = row.get(name)
    wb.save(path)
    return str(path)


def test_same_bytes_each_time() -> None:
    assert survey_form() == survey_form()
    assert catalogue_form() == catalogue_form()


def test_every_column_has_heading_unit_need_and_note(form) -> None:
    ws = form["Survey"]
    assert form.sheetnames == ["Survey", "Example", "What to measure"]
    assert [c.value for c in ws[HEADING_ROW]] == [c.titled for c in SURVEY.columns]
    assert [c.value == "needed" for c in ws[HEADING_ROW - 1]] == [c.needed for c in SURVEY.columns]
    rules = {str(v.sqref).split(":")[0]: v for v in ws.data_validations.dataValidation}
    for at, column in enumerate(SURVEY.columns, 1):
        rule = rules[ws.cell(HEADING_ROW + 1, at).coordinate]
        assert rule.promptTitle == column.heading[:32]
        assert rule.prompt
        if column.values:
            assert rule.type == "list"
            assert rule.formula1 == '"{}"'.format(",".join(column.values))
            assert rule.errorStyle in (None, "stop")
    assert ws.freeze_panes == "F5"
    assert (ws.page_setup.orientation, ws.page_setup.fitToWidth or 1, ws.page_setup.fitToHeight) == ("landscape", 1, 0)
    assert ws.print_title_rows == "$3:$4"


def test_cells_for_measures_and_codes_hold_text(form) -> None:
    ws = form["Survey"]
    for at, column in enumerate(SURVEY.columns, 1):
        wants_text = column.kind not in ("whole", "moment") and column.name != "soil_class"
        assert (ws.cell(HEADING_ROW + ROWS, at).number_format == "@") == wants_text, column.name


def test_the_worked_example_filled_in_gives_no_query(form, tmp_path) -> None:
    rows = [
        EXAMPLE,
        {**EXAMPLE, "post_code": "3-1"},
        {k: v for k, v in EXAMPLE.items() if SURVEY.column(k).needed} | {"post_code": "8-6"},
    ]
    rows[2]["post_size"] = "3-1/2"
    result = check_path(_fill(form, rows, tmp_path / "filled.xlsx"), "filled.xlsx", documented_policy())
    assert result.queries == ()
    assert [r.post_code for r in result.rows] == ["East 1", "3-1", "8-6"]
    assert result.rows[2].post_size == 0.0889
    assert set(EXAMPLE) <= set(SURVEY.names)


def test_what_is_read_from_a_form_passes_the_surveys_model(form, tmp_path) -> None:
    rows = [
        EXAMPLE,
        {**EXAMPLE, "post_code": "2", "post_size": "NPS 3 sch 40", "size_basis": None, "clear_length": None, "lean": None},
    ]
    result = check_path(_fill(form, rows, tmp_path / "filled.xlsx"), "filled.xlsx", documented_policy())
    assert result.queries == ()
    frames.check(frames.frame([stated(r) for r in result.rows], SURVEY), SURVEY)


def test_an_empty_form_has_no_post_in_it(tmp_path) -> None:
    (tmp_path / "form.xlsx").write_bytes(survey_form())
    assert check_path(str(tmp_path / "form.xlsx"), "form.xlsx", documented_policy()).rows == ()


def test_the_drop_downs_words_are_all_understood(tmp_path) -> None:
    for column in (c for c in SURVEY.columns if c.values and c.name != "size_basis"):
        wb = openpyxl.load_workbook(io.BytesIO(survey_form()))
        rows = [{**EXAMPLE, "post_code": str(n), column.name: word} for n, word in enumerate(column.values)]
        if column.name == "site_kind":
            rows = [{**r, "site_code": f"S{n}"} for n, r in enumerate(rows)]
        if column.name == "post_shape":
            rows = [{**r, "size_basis": None} for r in rows]
        result = check_path(_fill(wb, rows, tmp_path / "f.xlsx"), "f.xlsx", documented_policy())
        assert result.queries == (), column.name
        assert [str(getattr(r, column.name)) for r in result.rows] == list(column.values)


def test_checks_on_site_and_caution_stand_on_the_sheet(form) -> None:
    texts = {c.value for r in form["What to measure"].iter_rows() for c in r if c.value}
    assert CAUTION in texts
    assert {text for _, text in ON_SITE_CHECKS} <= texts
    assert {heading for heading, _ in LABELS} <= texts


def test_the_drawing_shows_what_it_says() -> None:
    """Ring 10 ft above the playing surface, 6 in above the board's lower edge. Source: NFHS rule 1; FIBA equipment (memory)."""
    by_name = {b.name: b for b in boxes()}
    post, ring, court, board = (by_name[n] for n in ("post", "ring, new", "court", "board, new"))
    assert ring.z1 - court.z1 == pytest.approx(3.048)
    assert ring.z1 - board.z0 == pytest.approx(0.150)
    assert post.z1 == pytest.approx(8.5 * 0.3048)
    assert post.x1 - post.x0 == pytest.approx(3.5 * 0.0254)
    height, rise, line, clear = (
        by_name[n] for n in ("Height above ground", "Court above ground", "Post to end line", "Clear straight length")
    )
    assert (height.z0, height.z1) == (0, post.z1)
    assert (rise.z0, rise.z1) == (0, court.z1)
    assert (line.x0, line.x1) == (post.x1, by_name["end line"].x0)
    assert clear.z1 == post.z1
    assert {b.text for b in boxes() if b.name.endswith("number")} == {str(n) for n in range(1, len(LABELS) + 1)}
    assert all(b.x0 < b.x1 and b.z0 < b.z1 for b in boxes())


def test_an_empty_catalogue_lists_what_is_missing_and_a_filled_one_is_read(tmp_path) -> None:
    path = tmp_path / "catalogue.xlsx"
    path.write_bytes(catalogue_form())
    with pytest.raises(CatalogueFaults) as caught:
        read_catalogue(str(path))
    assert {f.sheet for f in caught.value.faults} == {"Mounts", "Boards", "Rings", "Pairings", "Freight"}
    wb = openpyxl.load_workbook(path)
    assert wb.sheetnames[: len(CATALOGUE)] == [t.name for t in CATALOGUE]
    for name, rows in ITEMS.items():
        for n, row in enumerate(rows, 2):
            for at, value in enumerate(row, 1):
                if name not in ("Policy", "Seller"):
                    wb[name].cell(n, at).value = value
    wb.save(path)
    read = read_catalogue(str(path))
    assert read.policy == documented_policy()  # the form lists every setting at its documented default
    assert read.stated == {s.name for s in SETTINGS}
    assert len(read.tables["Mounts"]) == 3


def test_catalogue_form_has_notes_and_drop_downs() -> None:
    wb = openpyxl.load_workbook(io.BytesIO(catalogue_form()))
    for table in CATALOGUE:
        ws = wb[table.name]
        assert [c.value for c in ws[1]] == [c.titled for c in table.columns]
        assert all(c.comment and c.comment.text for c in ws[1])
        lists = {v.formula1 for v in ws.data_validations.dataValidation if v.type == "list"}
        assert {'"{}"'.format(",".join(c.values)) for c in table.columns if c.values} <= lists


def _luminance(colour: str) -> float:
    channels = [int(colour[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize(
    ("ink", "ground"),
    [
        (form_parts.INK, form_parts.NEEDED),
        (form_parts.INK, "#FFF8E6"),
        (form_parts.PAPER, form_parts.BAND),
        (form_parts.FINE, form_parts.PAPER),
        (mark_list.DARK, mark_list.HOLDS),
        (mark_list.DARK, mark_list.TELLS),
        ("0B4F8A", mark_list.HOLDS),
        ("0B4F8A", mark_list.TELLS),
    ],
)
def test_text_stands_out_from_its_ground(ink, ground) -> None:
    """At least 4.5 to 1. Source: WCAG 2.2, success criterion 1.4.3 (contrast, minimum)."""
    light, dark = sorted((_luminance(ink.lstrip("#")), _luminance(ground.lstrip("#"))), reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= 4.5
