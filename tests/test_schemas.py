"""The glossary as pandera models and as an open data package: strict where it must be, and valid outside."""

from __future__ import annotations

import json
import math
from dataclasses import fields
from decimal import Decimal

import pandas as pd
import pytest
from catalogue_made import sheets, write

from pipeline.intake.catalogue import documented_policy, read_catalogue
from schemas import frames
from schemas.catalogue import CATALOGUE, MOUNTS, RINGS
from schemas.datapackage import descriptor
from schemas.results import KITS, QUERIES, RESULTS, SITES
from schemas.survey import SURVEY
from schemas.surveyed_post import SurveyedPost

POST = {
    "site_code": "A", "site_name": "Hollow Lane", "post_code": "1", "quantity": 2, "post_shape": "round", "post_size": 0.0889,
    "measured_with": "rule across", "material": "steel", "post_height": 2.59, "height_measured_with": "tape", "court_rise": -0.02,
    "clear_length": 2.59, "post_line": "straight", "post_base": "unknown", "lean": 0.0, "old_fittings": "none",
    "condition": "sound", "ring_heights": (3.048, 2.438), "soil_class": 4,
}  # fmt: skip


def test_a_good_catalogue_passes_its_models(tmp_path) -> None:
    read = read_catalogue(write(sheets(), tmp_path / "c.xlsx"))
    for table in CATALOGUE:
        frames.check(frames.frame(read.tables[table.name], table), table)
    assert read.policy.keys() == documented_policy().keys()
    assert all(value is not None for value in read.policy.values())


def test_a_normalised_survey_passes_and_every_failure_is_told_at_once() -> None:
    frames.check(frames.frame([POST], SURVEY), SURVEY)
    bad = {**POST, "post_shape": "oval", "post_height": None, "post_size": -1.0, "soil_class": 6, "ring_heights": "10 ft"}
    with pytest.raises(frames.FrameError) as caught:
        frames.check(frames.frame([POST, bad], SURVEY), SURVEY)
    told = " ".join(caught.value.failures)
    assert all(name in told for name in ("post_shape", "post_height", "post_size", "soil_class", "ring_heights", "unique"))


@pytest.mark.parametrize(
    ("change", "column"),
    [
        ({"price": -1}, "price"),
        ({"price": 1.5}, "price"),
        ({"status": "sold out"}, "status"),
        ({"mass_kg": math.nan}, "mass_kg"),
        ({"ring": ""}, "ring"),
        ({"bin": "7"}, "bin"),
    ],
)
def test_a_row_that_is_not_what_its_table_says_is_refused(change, column) -> None:
    row = {
        "ring": "R",
        "description": "",
        "kind": "fixed",
        "ring_pattern": "P",
        "mass_kg": 5.0,
        "price": Decimal(1),
        "status": "active",
    }
    frames.check(frames.frame([row], RINGS), RINGS)
    with pytest.raises(frames.FrameError, match=column):
        frames.check(frames.frame([{**row, **change}], RINGS), RINGS)


def test_a_missing_column_and_a_doubled_key_are_refused() -> None:
    data = frames.frame([POST], SURVEY)
    with pytest.raises(frames.FrameError, match="post_height"):
        frames.check(data.drop(columns="post_height"), SURVEY)


def test_an_infinite_utilisation_is_a_legal_number() -> None:
    kit = {"site_code": "A", "post_code": "1", "rank": 1, "utilisation_play": math.inf, "unit_price": Decimal("10.00")}
    frames.check(frames.frame([kit], KITS), KITS)


def _values(column, row):
    """A legal value of a column as the file has it."""
    if column.values:
        return column.values[row % len(column.values)]
    by_kind = {"whole": str(row + 1), "flag": "true", "date": "2026-03-02", "text": f"text {row}", "code": f"C{row}"}
    return by_kind.get(column.kind, "INF" if column.kind == "number" else f"{row}.5")


def test_the_descriptor_is_valid_and_describes_the_files(tmp_path) -> None:
    """Source: Data Package standard, by its reference library (frictionless)."""
    frictionless = pytest.importorskip("frictionless")
    for table in RESULTS:
        rows = [{c.name: _values(c, n) for c in table.columns} for n in range(3)]
        pd.DataFrame(rows).to_csv(tmp_path / f"{table.name}.csv", index=False, lineterminator="\n")
    (tmp_path / "datapackage.json").write_text(json.dumps(descriptor(version="0.1.0")), encoding="utf-8")
    report = frictionless.validate(str(tmp_path / "datapackage.json"))
    assert report.valid, report.flatten(["message"])
    assert len(report.tasks) == len(RESULTS)
    (tmp_path / "sites.csv").write_text(
        ",".join(SITES.names) + "\n" + ",".join("x" for _ in SITES.names) + "\n", encoding="utf-8"
    )
    assert not frictionless.validate(str(tmp_path / "datapackage.json")).valid


def test_the_descriptor_names_units_words_and_keys_in_a_fixed_order() -> None:
    made = descriptor()
    assert json.dumps(made) == json.dumps(descriptor())
    queries = next(r for r in made["resources"] if r["name"] == QUERIES.name)["schema"]
    code = next(f for f in queries["fields"] if f["name"] == "code")
    assert "DATE_CELL" in code["constraints"]["enum"]
    assert queries["missingValues"] == [""]
    kits = next(r for r in made["resources"] if r["name"] == KITS.name)["schema"]
    assert next(f for f in kits["fields"] if f["name"] == "moment_play_N_m")["unit"] == "N m"
    assert kits["primaryKey"] == ["site_code", "post_code", "rank"]


def test_no_table_says_a_column_twice() -> None:
    for table in (*CATALOGUE, SURVEY, *RESULTS):
        assert len(set(table.names)) == len(table.columns)
        assert set(table.key) <= set(table.names)
    assert MOUNTS.column("travel_m").titled == "Ring travel [ft]"


def test_a_post_as_surveyed_has_a_field_for_every_column() -> None:
    beside = ("size_nominal", "shape_inferred", "not_stated", "unread")
    assert [f.name for f in fields(SurveyedPost) if f.name not in beside] == list(SURVEY.names)
