"""One broken catalogue for each mistake that can be made: the fault, its sheet, its cell, its words."""

from __future__ import annotations

import datetime
import io
import re
from typing import Any

import pytest
from catalogue_made import Sheets, sheets, write
from PIL import Image

from pipeline.intake.catalogue import CatalogueFaults, read_catalogue


def put(sheet: str, cell: str, value: Any):
    """A mistake: `value` in one cell of a sheet (its headings stand in row 1)."""

    def spoil(made: Sheets) -> None:
        column, row = ord(cell[0]) - 65, int(cell[1:]) - 1
        rows = made[sheet]
        while len(rows) <= row:
            rows.append([])
        rows[row] = rows[row] + [None] * (column + 1 - len(rows[row]))
        rows[row][column] = value

    return spoil


def row(sheet: str, *values: Any):
    """A mistake: one row more."""
    return lambda made: made[sheet].append(list(values))


def without(sheet: str, column: int | None = None):
    """A mistake: a sheet or a column left out."""

    def spoil(made: Sheets) -> None:
        if column is None:
            del made[sheet]
        else:
            for r in made[sheet]:
                del r[column : column + 1]

    return spoil


CASES = [
    # sheets and headings
    ("no sheet", without("Rings"), "Rings", "", "no sheet “Rings”"),
    ("no column", without("Mounts", 16), "Mounts", "A1", "no column “Price”"),
    ("no headings", lambda m: m.update(Freight=[["up to", "costs"], [1, 2]]), "Freight", "A1", "No row of headings"),
    ("two columns of one name", put("Freight", "C1", "PRICE"), "Freight", "C1", "over two columns, here and at B1"),
    ("unit of another kind", put("Boards", "F1", "Mass [in]"), "Boards", "F1", "“in” is no unit of mass"),
    ("unit unknown", put("Mounts", "D1", "Post size least [stones]"), "Mounts", "D1", "“stones” is no unit of length"),
    ("no unit anywhere", put("Freight", "A1", "Mass up to"), "Freight", "A2", "has no unit"),
    ("currencies disagree", put("Boards", "J1", "Price [EUR]"), "Boards", "J1", "headed EUR, but the policy's currency is USD"),
    # cells
    ("blank code", put("Boards", "A2", None), "Boards", "A2", "“Board” is blank"),
    ("blank price", put("Rings", "F2", "  "), "Rings", "F2", "“Price” is blank"),
    ("blank word", put("Mounts", "R2", None), "Mounts", "R2", "“Status” is blank"),
    ("no number", put("Rings", "E2", "heavy"), "Rings", "E2", "heavy"),
    ("a range", put("Mounts", "D2", "3.4-3.6"), "Mounts", "D2", "3.4-3.6"),
    ("no price", put("Rings", "F2", "on request"), "Rings", "F2", "on request"),
    ("error cell", put("Mounts", "Q2", "#N/A"), "Mounts", "Q2", "the error #N/A"),
    ("formula without result", put("Boards", "J2", "=200+65"), "Boards", "J2", "without a stored result"),
    ("date", put("Mounts", "D2", datetime.date(2002, 3, 1)), "Mounts", "D2", "into a date"),
    ("date for a code", put("Boards", "A2", datetime.date(2026, 8, 6)), "Boards", "A2", "into a date"),
    ("true for a mass", put("Rings", "E2", True), "Rings", "E2", "“TRUE” is no mass"),
    ("word not in the list", put("Mounts", "F2", "ubolt"), "Mounts", "F2", "“ubolt” is not in the list"),
    ("fraction of a piece", put("Price breaks", "B2", 2.5), "Price breaks", "B2", "2.5"),
    # signs
    ("negative price", put("Mounts", "Q2", -410), "Mounts", "Q2", "“Price” is negative"),
    ("negative mass", put("Rings", "E2", -1), "Rings", "E2", "“Mass” is negative"),
    ("negative length", put("Mounts", "M2", -30), "Mounts", "M2", "“Overhang” is negative"),
    ("no width", put("Boards", "D2", 0), "Boards", "D2", "“Width” is 0"),
    ("no moment", put("Extensions", "M2", 0), "Extensions", "M2", "“Rated moment” is 0"),
    ("from no quantity", put("Price breaks", "B2", 0), "Price breaks", "B2", "“From quantity” is 0"),
    # within a table
    ("least above most", put("Mounts", "D2", 3.7), "Mounts", "D2", "“Post size least” is above “Post size most” (E2)"),
    ("bore least above most", put("Extensions", "K3", 3.2), "Extensions", "K3", "“Bore least” is above “Bore most” (L3)"),
    ("stepped, no step", put("Mounts", "K2", None), "Mounts", "K2", "needs a ring step"),
    ("code twice", put("Boards", "A3", "b-54 "), "Boards", "A3", "“b-54” is used twice; it stands at A2"),
    ("code in two tables", put("Rings", "A2", "M-10"), "Rings", "A2", "on the sheet Mounts at A2"),
    ("service twice", put("Services", "A3", "s-1"), "Services", "A3", "used twice"),
    ("no active ring", put("Rings", "G2", "withdrawn"), "Rings", "A1", "no active ring"),
    ("no pairing", lambda m: m.update(Pairings=m["Pairings"][:1]), "Pairings", "A1", "no pairing"),
    # between tables
    ("pair of an unknown mount", put("Pairings", "A2", "M-11"), "Pairings", "A2", "“M-11” is not on the sheet Mounts"),
    ("pair of an unknown board", put("Pairings", "B3", "R-1"), "Pairings", "B3", "“R-1” is not on the sheet Boards"),
    ("pair twice", row("Pairings", "M-10", "B-54"), "Pairings", "A5", "stands in row 2 already"),
    ("break of an unknown item", put("Price breaks", "A2", "S-1"), "Price breaks", "A2", "“S-1” is not on"),
    ("break twice", put("Price breaks", "B3", 5), "Price breaks", "B3", "Row 2 has a price for this item from this quantity"),
    # freight
    ("freight falls", put("Freight", "A3", 400), "Freight", "A3", "not above that of the row before"),
    ("freight ends", put("Freight", "A4", 5000), "Freight", "A4", "last row is not open"),
    ("freight open too soon", put("Freight", "A2", None), "Freight", "A2", "blank on a row that is not the last"),
    ("no freight", lambda m: m.update(Freight=m["Freight"][:1]), "Freight", "A2", "no freight price"),
    # customers
    ("discount above all", put("Customers", "B2", 101), "Customers", "B2", "above 100 %"),
    ("discount below none", put("Customers", "B2", -1), "Customers", "B2", "negative"),
    ("customer twice", row("Customers", "NORTHMERE  schools"), "Customers", "A4", "stands in row 2 already"),
    (
        "another's other name",
        put("Customers", "E3", "LSL; northmere sd"),
        "Customers",
        "E3",
        "“northmere sd” stands in row 2",
    ),
    (
        "another's name",
        put("Customers", "E2", "lakeside league"),
        "Customers",
        "A3",
        "“Lakeside  League” stands in row 2",
    ),
    ("together, perhaps", put("Customers", "J2", "perhaps"), "Customers", "J2", "“perhaps” is not in the list"),
    ("no such choice", put("Customers", "K2", "cheapest"), "Customers", "K2", "“cheapest” is not in the list"),
    # seller
    ("particular twice", row("Seller", "PHONE", "555 0199"), "Seller", "A5", "“phone” stands in row 3 already"),
    ("no such particular", put("Seller", "A2", "e-mail"), "Seller", "A2", "“e-mail” is not in the list"),
    ("no particular", put("Seller", "A2", None), "Seller", "A2", "“Setting” is blank"),
    ("logo not there", row("Seller", "logo", "logo.png"), "Seller", "B5", "There is no file “logo.png” beside the catalogue"),
    ("logo elsewhere", row("Seller", "logo", "../logo.png"), "Seller", "B5", "not beside the catalogue"),
    ("logo by a path", row("Seller", "logo", "C:\\art\\logo.png"), "Seller", "B5", "not beside the catalogue"),
    ("exempt, perhaps", put("Customers", "C2", "maybe"), "Customers", "C2", "“maybe” is not in the list"),
    # policy
    ("unknown setting", put("Policy", "A2", "windspeed_"), "Policy", "A2", "“windspeed_” is no setting"),
    ("setting twice", row("Policy", "Wind speed", 100, "mph"), "Policy", "A5", "set twice, here and at A2"),
    ("setting without a value", put("Policy", "B2", None), "Policy", "B2", "“Value” is blank"),
    ("setting of another kind", put("Policy", "C2", "kg"), "Policy", "C2", "“kg” is no unit for “wind_speed”"),
    ("setting unreadable", put("Policy", "B2", "strong"), "Policy", "B2", "strong"),
    ("setting below its bound", row("Policy", "push_load", -5), "Policy", "B5", "“push_load” is below 0 N"),
    ("setting above its bound", put("Policy", "B3", 7.25), "Policy", "B3", "“tax_rate” is above 1"),
    ("setting not in its list", row("Policy", "exposure", "A"), "Policy", "B5", "“A” is not in the list"),
    ("range upside down", row("Policy", "wall_least", 30, "mm"), "Policy", "B5", "“wall_least” is above “wall_most”"),
    (
        "a last day that no calendar has",
        row("Policy", "quote_valid_days", 4_000_000),
        "Policy",
        "B5",
        "“quote_valid_days” is above",
    ),
    ("no currency", put("Policy", "B4", "dollars"), "Policy", "B4", "no ISO 4217 currency code"),
    ("no code of a currency", put("Policy", "B4", "XYZ"), "Policy", "B4", "no ISO 4217 currency code"),
]


@pytest.mark.parametrize(("spoil", "sheet", "cell", "words"), [c[1:] for c in CASES], ids=[c[0] for c in CASES])
def test_each_mistake_is_named_at_its_cell(tmp_path, spoil, sheet, cell, words) -> None:
    made = sheets()
    spoil(made)
    with pytest.raises(CatalogueFaults) as caught:
        read_catalogue(write(made, tmp_path / "catalogue.xlsx"))
    found = [f for f in caught.value.faults if (f.sheet, f.cell) == (sheet, cell)]
    assert any(words in f.message for f in found), caught.value.faults
    assert all(f.suggestion for f in caught.value.faults)
    assert len(caught.value.faults) <= 3  # one mistake is not told ten times


def test_all_faults_in_one_go_in_the_order_of_the_sheets(tmp_path) -> None:
    made = sheets()
    for spoil in (
        put("Freight", "A4", 5000),
        put("Mounts", "Q3", -1),
        put("Mounts", "D2", "about 3"),
        put("Pairings", "B2", "X"),
    ):
        spoil(made)
    with pytest.raises(CatalogueFaults) as caught:
        read_catalogue(write(made, tmp_path / "catalogue.xlsx"))
    assert [(f.sheet, f.cell) for f in caught.value.faults] == [
        ("Mounts", "D2"),
        ("Mounts", "Q3"),
        ("Pairings", "B2"),
        ("Freight", "A4"),
    ]


@pytest.mark.parametrize("content", [b"", b"%PDF-1.7 nothing", b"PK\x03\x04 cut short", b"Mount,Board\nM-1,B-1\n"])
def test_a_file_that_is_no_catalogue_is_one_plain_fault(tmp_path, content) -> None:
    path = tmp_path / "catalogue.xlsx"
    path.write_bytes(content)
    with pytest.raises(CatalogueFaults) as caught:
        read_catalogue(str(path))
    assert len(caught.value.faults) == 1
    assert caught.value.faults[0].message
    assert caught.value.faults[0].suggestion


def test_a_near_name_is_suggested(tmp_path) -> None:
    made = sheets()
    made["Policy"][1][0] = "wind_sped"
    made["Mounts"][1][17] = "actve"
    with pytest.raises(CatalogueFaults) as caught:
        read_catalogue(write(made, tmp_path / "catalogue.xlsx"))
    hints = " ".join(f.suggestion for f in caught.value.faults)
    assert "Did you mean wind_speed?" in hints
    assert "Type active" in hints


def picture(kind: str, width: int = 60, height: int = 40, noise: bool = False) -> bytes:
    """A picture as an image program saves it."""
    out = io.BytesIO()
    made = Image.effect_noise((width, height), 90) if noise else Image.new("RGB", (width, height), "white")
    made.save(out, kind)
    return out.getvalue()


@pytest.mark.parametrize(
    ("name", "data", "words"),
    [
        ("logo.png", b"GIF89a nothing", "no PNG or JPEG picture"),
        ("logo.png", picture("GIF"), "no PNG or JPEG picture"),
        ("logo.png", picture("PNG", noise=True)[:-900], "no PNG or JPEG picture"),
        ("logo.jpg", picture("JPEG", noise=True)[:900], "no PNG or JPEG picture"),
        ("logo.png", picture("PNG", 8, 40), "8 x 40 pixels"),
        ("logo.png", picture("PNG", 5000, 40), "5000 x 40 pixels"),
        ("logo.png", picture("PNG", 1200, 1200, noise=True), "above 1 MB"),
    ],
)
def test_a_logo_that_is_none_is_named_at_its_cell(tmp_path, name, data, words) -> None:
    made = sheets()
    made["Seller"].append(["logo", name])
    (tmp_path / name).write_bytes(data)
    with pytest.raises(CatalogueFaults) as caught:
        read_catalogue(write(made, tmp_path / "catalogue.xlsx"))
    (fault,) = caught.value.faults
    assert (fault.sheet, fault.cell) == ("Seller", "B5")
    assert words in fault.message
    assert fault.suggestion


def test_a_logo_out_of_the_folder_by_a_link_is_refused_and_a_near_name_is_suggested(tmp_path) -> None:
    (tmp_path / "art").mkdir()
    (tmp_path / "art" / "logo.png").write_bytes(picture("PNG"))
    (tmp_path / "link.png").symlink_to(tmp_path / "art" / "logo.png")
    (tmp_path / "our-logo.png").write_bytes(picture("PNG"))
    for name, words in (("link.png", "not beside the catalogue"), ("our_logo.png", "Did you mean our-logo.png?")):
        made = sheets()
        made["Seller"].append(["logo", name])
        with pytest.raises(CatalogueFaults, match=re.escape(words)):
            read_catalogue(write(made, tmp_path / "catalogue.xlsx"))


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (put("Mounts", "K2", 36), "the ring step is greater than the ring travel"),
        (put("Mounts", "J3", 1), "a fixed mount has no ring travel"),
        (put("Mounts", "K4", 6), "a continuous mount has no ring step"),
    ],
)
def test_what_an_adjustment_does_not_use_is_noted_and_no_fault(tmp_path, spoil, words) -> None:
    made = sheets()
    spoil(made)
    assert any(words in note for note in read_catalogue(write(made, tmp_path / "catalogue.xlsx")).notes)
