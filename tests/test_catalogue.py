"""Catalogue reading: what a good one gives, in whatever order and units it is written."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal

import pytest
from catalogue_made import sheets, write
from PIL import Image

from pipeline.intake.catalogue import CatalogueRead, documented_policy, read_catalogue
from pipeline.money.customers import nearest, terms
from schemas.policy import SETTINGS


@pytest.fixture
def read(tmp_path):
    def _read(made) -> CatalogueRead:
        return read_catalogue(write(made, tmp_path / "catalogue.xlsx"))

    return _read


def test_values_are_si_words_and_decimals(read) -> None:
    got = read(sheets())
    mount, _, crank = got.tables["Mounts"]
    # 25.4 mm to the inch and 0.3048 m to the foot by definition. Source: NIST SP 811 (2008), appendix B.8
    assert mount["size_least_m"] == 3.4 * 254 / 10000
    assert mount["post_height_needed_m"] == 2.5908
    assert crank["size_least_m"] == 0.1127125  # 4 7/16 in
    # 0.45359237 kg to the pound by definition. Source: NIST SP 811 (2008), appendix B.8
    assert mount["mass_kg"] == pytest.approx(62 * 0.45359237, rel=1e-15)
    assert mount["price"] == Decimal("410")
    assert got.tables["Mounts"][1]["price"] == Decimal("280.5")
    assert (got.tables["Mounts"][1]["travel_m"], got.tables["Mounts"][1]["step_m"]) == (0.0, 0.0)
    assert got.tables["Boards"][1]["height_m"] == 0.8128
    assert got.tables["Boards"][1]["price"] == Decimal("199.95")
    assert got.tables["Extensions"][0]["rated_moment_N_m"] == 4500.0
    assert got.tables["Extensions"][1]["rated_moment_N_m"] is None
    assert got.tables["Freight"][2]["mass_most_kg"] is None
    assert got.tables["Price breaks"][0]["from_quantity"] == 5
    assert got.tables["Customers"][0]["discount_percent"] == Decimal("7.5")
    assert got.tables["Customers"][1]["discount_percent"] == 0
    assert got.tables["Customers"][1]["tax_exempt"] == "no"


def test_customers_and_seller(read) -> None:
    got = read(sheets())
    northmere, lakeside = got.tables["Customers"]
    assert (northmere["also_known_as"], northmere["contact"], northmere["address"]) == ("Northmere SD; Northmere", "M. Hale", "")
    assert (northmere["order_together"], northmere["choice"]) == ("yes", "least price")
    assert (lakeside["order_together"], lakeside["choice"]) == ("no", "least price")
    assert [(s["setting"], s["value"]) for s in got.tables["Seller"]] == [
        ("name", "Fallow Court Supply"),
        ("phone", "555 0142"),
        ("closing", ""),
    ]


def test_further_columns_and_the_seller_may_be_missing(read) -> None:
    made = sheets()
    del made["Seller"]
    made["Customers"] = [r[:4] for r in made["Customers"]]
    got = read(made)
    assert got.tables["Seller"] == ()
    assert [(c["also_known_as"] or "", c["order_together"], c["choice"]) for c in got.tables["Customers"]] == [
        ("", "no", "least price")
    ] * 2


@pytest.mark.parametrize(
    ("typed", "listed"),
    [
        ("Northmere Schools", "Northmere Schools"),
        (" NORTH mere schools", "Northmere Schools"),
        ("northmere sd", "Northmere Schools"),
        ("NORTHMERE", "Northmere Schools"),
        ("lakesideleague", "Lakeside  League"),
        ("Northmere", "Northmere Schools"),
        ("North", None),
        ("", None),
    ],
)
def test_a_customer_is_known_by_any_of_its_names(read, typed, listed) -> None:
    found = terms(typed, read(sheets()).tables["Customers"])
    assert (found and found["customer"]) == listed


@pytest.mark.parametrize(
    ("typed", "near"), [("Northmere Shools", "Northmere Schools"), ("Northmere S.D.", "Northmere SD"), ("Quarry Trust", "")]
)
def test_the_nearest_listed_name(read, typed, near) -> None:
    assert nearest(typed, read(sheets()).tables["Customers"]) == near


def test_the_logo_counts_in_the_fingerprint(tmp_path) -> None:
    made = sheets()
    made["Seller"].append(["logo", "logo.png"])
    prints = set()
    for colour in ("white", "black", "white"):
        Image.new("RGB", (60, 40), colour).save(tmp_path / "logo.png")
        prints.add(read_catalogue(write(made, tmp_path / "catalogue.xlsx")).fingerprint)
    assert len(prints) == 2


def test_codes_are_spelt_as_their_own_sheet_spells_them(read) -> None:
    got = read(sheets())
    assert [(p["mount"], p["board"]) for p in got.tables["Pairings"]] == [("M-10", "B-54"), ("M-10", "B-48"), ("M-20", "B-48")]
    assert got.tables["Price breaks"][2]["item"] == "B-54"


def test_policy_stated_and_documented(read) -> None:
    got = read(sheets())
    assert got.stated == {"wind_speed", "tax_rate", "currency"}
    # 0.44704 m/s to the mile per hour. Source: NIST SP 811 (2008), appendix B.8
    assert got.policy["wind_speed"] == pytest.approx(120 * 0.44704, rel=1e-15)
    assert got.policy["tax_rate"] == Decimal("0.0725")
    assert got.typed["wind_speed"] == ("120", "mph")
    assert got.typed["lean_limit"] == ("2", "deg")
    assert set(got.policy) == {s.name for s in SETTINGS} == set(got.typed)
    kept = documented_policy()
    assert all(got.policy[k] == kept[k] for k in kept if k not in got.stated)


def test_documented_policy_in_si() -> None:
    policy = documented_policy()
    assert policy["ring_height_wanted"] == (3.048,)
    assert policy["soil_class"] == 5
    assert policy["exposure"] == "C"
    assert policy["lean_limit"] == pytest.approx(0.034906585, rel=1e-8)
    assert policy["size_uncertainty_pipe_mark"] == 0.01
    assert policy["steel_yield"] == 207e6
    assert policy["tax_rate"] == Decimal("0")
    assert policy["quote_valid_days"] == 30


@pytest.mark.parametrize(
    ("row", "name", "value", "typed"),
    [
        (["Tax rate", "7.25 %"], "tax_rate", Decimal("0.0725"), ("7.25 %", "")),
        (["tax_rate", 7.25, "%"], "tax_rate", Decimal("0.0725"), ("7.25", "%")),
        (["ring_height_wanted", "10; 8; 9 ft"], "ring_height_wanted", (2.4384, 2.7432, 3.048), None),
        (["lean_limit", "1:50"], "lean_limit", pytest.approx(0.0199973, rel=1e-5), None),
        (["soil_class", 5], "soil_class", 5, ("5", "")),
        (["exposure", "b"], "exposure", "B", ("b", "")),
        (["ring_height_tolerance", "1/4 in"], "ring_height_tolerance", 0.00635, ("1/4 in", "")),
        (["size_uncertainty_drawing", 2], "size_uncertainty_drawing", 0.02, ("2", "%")),
        (["steel_yield", 36, "ksi"], "steel_yield", pytest.approx(248.2e6, rel=1e-3), ("36", "ksi")),
        (["currency", "eur"], "currency", "EUR", ("eur", "")),
        (["post_height_most", 7], "post_height_most", 7.0, ("7", "m")),
    ],
)
def test_settings_as_people_type_them(read, row, name, value, typed) -> None:
    made = sheets()
    made["Policy"][1:] = [row]
    got = read(made)
    assert got.policy[name] == value
    assert typed is None or got.typed[name] == typed


def test_fingerprint_is_of_the_content(read) -> None:
    first = read(sheets()).fingerprint
    made = sheets()
    made["Mounts"] = [list(reversed(r)) for r in (made["Mounts"][0], *reversed(made["Mounts"][1:]))]
    made["Boards"][0][3], made["Boards"][1][3], made["Boards"][2][3] = "Width [mm]", 1371.6, 1219.2
    made["Customers"][1][3] = "another note"
    made["Pairings"].reverse()
    made["Pairings"].insert(0, made["Pairings"].pop())
    made["Anything else"] = [["is not read"]]
    assert read(made).fingerprint == first
    made["Mounts"][1][1] = 411
    assert read(made).fingerprint != first


def test_title_rows_blank_rows_and_other_columns_are_no_harm(read) -> None:
    made = sheets()
    made["Boards"] = [["Our boards"], [], made["Boards"][0] + ["Bin"], made["Boards"][1] + ["7"], [], made["Boards"][2]]
    del made["Customers"], made["Policy"]
    got = read(made)
    assert [b["board"] for b in got.tables["Boards"]] == ["B-54", "B-48"]
    assert got.tables["Customers"] == ()
    assert any("Bin" in note for note in got.notes)
    assert got.stated == frozenset()


def test_reading_a_catalogue_loads_no_frames() -> None:
    code = (
        "import sys, pipeline.intake.catalogue; print(sorted({'pandas', 'pandera', 'openpyxl', 'xlsxwriter'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip() == "[]"
