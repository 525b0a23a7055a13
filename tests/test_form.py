"""The forms: what a person gets, what comes of it filled in, and the drawing against the figures it shows."""

from __future__ import annotations

import io
from pathlib import Path

import openpyxl
import pytest
from catalogue_made import ROWS as ITEMS
from click.testing import CliRunner
from survey_checked import check_path

from pipeline.cli import main
from pipeline.forms import catalogue_form, form_parts, survey_form
from pipeline.forms.form_languages import PROSE
from pipeline.forms.form_words import LABELS
from pipeline.forms.known_rows import as_typed
from pipeline.forms.measure_drawing import boxes
from pipeline.forms.survey_columns import columns, language_of
from pipeline.forms.survey_form import EXAMPLE, ROWS, example
from pipeline.intake.catalogue import CatalogueFaults, documented_policy, read_catalogue
from pipeline.intake.survey.list_words import read_word
from pipeline.intake.survey.survey_row import stated
from pipeline.marking import correction_list as mark_list
from schemas import frames
from schemas.catalogue import CATALOGUE
from schemas.policy import SETTINGS
from schemas.survey import SURVEY
from schemas.words import CAUTION, ON_SITE_CHECKS

HEADING_ROW = 4
ROOT = Path(__file__).resolve().parent.parent


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
        if column.name == "strength_cleared":  # a yes wants a name
            rows = [{**r, "cleared_by": "A. Brandt, licence 4711"} for r in rows]
        result = check_path(_fill(wb, rows, tmp_path / "f.xlsx"), "f.xlsx", documented_policy())
        assert result.queries == (), column.name
        assert [str(getattr(r, column.name)) for r in result.rows] == list(column.values)


def test_checks_on_site_and_caution_stand_on_the_sheet(form) -> None:
    texts = {c.value for r in form["What to measure"].iter_rows() for c in r if c.value}
    assert CAUTION in texts
    assert {text for _, text in ON_SITE_CHECKS} <= texts
    assert {heading for heading, _ in LABELS} <= texts


@pytest.mark.parametrize("code", sorted(PROSE))
def test_a_form_in_each_language_is_read_back(code: str, tmp_path) -> None:
    language = language_of(code)
    wb = openpyxl.load_workbook(io.BytesIO(survey_form(code)))
    assert [c.value for c in wb["Survey"][HEADING_ROW]] == [c.titled for c in columns(language)]
    assert len({c.value for c in wb["Survey"][HEADING_ROW]}) == len(SURVEY.names)
    assert all(len(rule.formula1) <= 257 for rule in wb["Survey"].data_validations.dataValidation if rule.type == "list")
    metric = {"post_height": "2,60", "post_size": "89 mm", "size_basis": ""} if code != "en" else {}
    result = check_path(
        _fill(wb, [example(language), {**example(language), "post_code": "2"} | metric], tmp_path / "f.xlsx"),
        "f.xlsx", documented_policy(),
    )  # fmt: skip
    assert result.queries == ()
    row = result.rows[0]
    assert (row.post_shape, row.post_line, row.old_fittings, row.condition) == ("round", "straight", "removable", "surface rust")
    assert (row.post_base, row.material, row.site_kind, row.soil_class) == ("cast in", "steel", "school", 4)
    assert row.post_size == pytest.approx((11 * 0.0254 if code == "en" else 0.280) / 3.141592653589793)
    assert row.post_height == pytest.approx(2.6035 if code == "en" else 2.60)
    assert result.rows[1].post_height == pytest.approx(2.60 if metric else 2.6035)


@pytest.mark.parametrize("code", sorted(PROSE))
def test_every_word_of_every_drop_down_of_every_language_is_read(code: str) -> None:
    language = language_of(code)
    for column, shown in zip(SURVEY.columns, columns(language), strict=True):
        for value, said in zip(column.values, shown.values, strict=True):
            found = read_word(column.name, said)
            assert found is not None, (code, column.name, said)
            assert found.value == value


@pytest.mark.parametrize("code", sorted(PROSE))
def test_checks_and_caution_stand_on_the_form_in_each_language(code: str) -> None:
    wb = openpyxl.load_workbook(io.BytesIO(survey_form(code)))
    prose = PROSE[code]
    assert wb.sheetnames == list(prose.sheets)
    assert len(prose.checks) == len(ON_SITE_CHECKS)
    texts = {c.value for r in wb[prose.sheets[2]].iter_rows() for c in r if c.value}
    assert {prose.caution, *(text for _, text in prose.checks)} <= texts


def test_a_form_of_what_is_known_says_what_the_survey_said(tmp_path) -> None:
    first = [
        EXAMPLE,
        {
            "site_code": "S",
            "site_name": "Fen Park",
            "post_code": "2",
            "post_shape": "square",
            "post_size": "4 in",
            "post_height": "8 ft",
        },
        {
            "site_code": "S",
            "site_name": "Fen Park",
            "post_code": "3",
            "post_shape": "round",
            "post_size": "NPS 3 sch 40",
            "post_height": "2,59 m",
            "lean": "1:100",
        },
    ]
    one = check_path(
        _fill(openpyxl.load_workbook(io.BytesIO(survey_form())), first, tmp_path / "a.xlsx"), "a.xlsx", documented_policy()
    )
    for code in ("en", "fr"):
        (tmp_path / "b.xlsx").write_bytes(survey_form(code, [as_typed(r, code) for r in one.rows]))
        two = check_path(str(tmp_path / "b.xlsx"), "b.xlsx", documented_policy())
        assert [q for q in two.queries if q.holds_row] == []
        assert [stated(r) for r in two.rows] == [stated(r) for r in one.rows]


def test_the_command_fills_the_form_from_a_folder(tmp_path) -> None:
    surveys = _fill(openpyxl.load_workbook(io.BytesIO(survey_form())), [EXAMPLE], tmp_path / "a.xlsx")
    catalogue = str(ROOT / "input_examples" / "catalogue.xlsx")
    words = ["quote", surveys, "--catalogue", catalogue, "--out", str(tmp_path / "out"), "--date", "2026-03-02", "--quiet"]
    assert CliRunner().invoke(main, words).exit_code == 0
    again = tmp_path / "again.xlsx"
    got = CliRunner().invoke(main, ["form", str(again), "--from", str(tmp_path / "out"), "hollow-1"])
    assert (got.exit_code, "known of 1 row" in got.output) == (0, True)
    assert [r.post_code for r in check_path(str(again), "a.xlsx", documented_policy()).rows] == ["East 1"]
    unknown = CliRunner().invoke(main, ["form", str(tmp_path / "c.xlsx"), "--from", str(tmp_path / "out"), "Hollow-2"])
    assert unknown.exit_code == 2
    assert "HOLLOW-1" in unknown.output
    assert CliRunner().invoke(main, ["form", str(tmp_path / "d.xlsx"), "HOLLOW-1"]).exit_code == 2


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
