"""Customers through the command: orders that move a neighbour's price, choices in force, the rows that programs read."""

from __future__ import annotations

import csv
import html
import io
import re
import zipfile
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from catalogue_made import sheets, write
from click.testing import CliRunner

from pipeline.cli import main
from schemas.policy import SETTINGS

HEAD = (
    "Site code,Site name,Customer,Post,Identical posts,Post shape,Post size [in],Height above ground [ft],Post line,Old fittings"
)
BY_CUSTOMER = {"A": "Northmere Schools", "B": "northmere sd", "C": "NORTHMERE  schools", "D": "Lakeside League", "E": ""}
BY_CUSTOMER["F"] = "Lake Side Leage"


class Desk:
    """A folder with a survey file for each site, a catalogue, and runs into one output folder."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.made, self.said = folder, sheets(), ""
        (folder / "surveys").mkdir()
        customers = self.made["Customers"]
        customers[1][9:11] = ["yes", "one board"]
        self.made["Price breaks"] = [self.made["Price breaks"][0], ["M-10", 5, 390], ["M-10", 10, 370]]

    def survey(self, site: str, posts: int, size: str = "3.5") -> None:
        row = f"{site},Ground {site},{BY_CUSTOMER[site]},1,{posts},round,{size},8.5,straight,none"
        (self.folder / "surveys" / f"{site}.csv").write_text(f"{HEAD}\n{row}\n", encoding="utf-8")

    def run(self, *more: str) -> Path:
        out = self.folder / "out"
        words = ["quote", str(self.folder / "surveys"), "--catalogue", write(self.made, self.folder / "catalogue.xlsx")]
        done = CliRunner().invoke(main, [*words, "--out", str(out), "--date", "2026-03-02", "--jobs", "1", *more])
        assert done.exit_code in (0, 1), done.output
        self.said = done.stderr
        return out


def rows(out: Path, name: str) -> list[dict[str, str]]:
    with (out / "data" / f"{name}.csv").open(encoding="utf-8", newline="") as f:
        return list(csv.DictReader(f))


@pytest.fixture
def desk(tmp_path) -> Desk:
    made = Desk(tmp_path)
    for site, posts in (("A", 2), ("B", 2), ("C", 0 + 5), ("D", 1), ("E", 1), ("F", 1)):
        made.survey(site, posts)
    return made


def price(out: Path, site: str, item: str) -> Decimal:
    return next(Decimal(x["unit_price"]) for x in rows(out, "quote_lines") if (x["site_code"], x["item"]) == (site, item))


def test_sites_of_one_customer_under_any_of_its_names_are_one_order(desk) -> None:
    out = desk.run()
    assert [price(out, s, "M-10") for s in "ABCD"] == [390, 390, 390, 410]  # 9 together; 1 alone
    got = {(r["customer"], r["site_code"]): r for r in rows(out, "customers")}
    assert [(k, r["sites"], r["posts"]) for k, r in got.items()] == [
        (("Northmere Schools", ""), "3", "9"),
        (("Lakeside League", ""), "1", "1"),
        (("", "E"), "1", "1"),
        (("Lake Side Leage", ""), "1", "1"),
    ]
    sites = {r["site_code"]: r for r in rows(out, "sites")}
    for name in ("net", "freight", "tax", "total"):
        assert Decimal(got["Northmere Schools", ""][name]) == sum(Decimal(sites[s][name]) for s in "ABC")
    in_force = {(r["customer"], r["site_code"]): r["choice"] for r in rows(out, "options") if r["in_force"] == "true"}
    assert in_force == dict.fromkeys(got, "least price") | {("Northmere Schools", ""): "one board"}
    for r in rows(out, "options"):
        if r["in_force"] == "true":
            assert all(
                r[n] == got[r["customer"], r["site_code"]][n] for n in ("net", "freight", "tax", "total", "posts_with_kit")
            )


def test_a_neighbour_that_moves_a_price_is_named(desk) -> None:
    desk.run()
    desk.survey("B", 3)
    out = desk.run()
    changes = rows(out, "changes")
    moved = {(r["site_code"], r["item"], r["was"], r["now"]) for r in changes if r["kind"] == "order"}
    assert ("A", "B", "M-10: price from 5", "M-10: price from 10") in moved
    assert {(s, item) for s, item, _, _ in moved} == {("A", "B"), ("C", "B")}
    assert {r["site_code"] for r in changes if r["kind"] == "survey cell"} == {"B"}
    assert [price(out, s, "M-10") for s in "ABCD"] == [370, 370, 370, 410]
    assert {r["site_code"]: r["revision"] for r in rows(out, "sites")} == dict.fromkeys("ABC", "2") | dict.fromkeys("DEF", "1")


def test_a_site_that_goes_moves_its_neighbours_too(desk) -> None:
    desk.run()
    (desk.folder / "surveys" / "C.csv").unlink()
    out = desk.run()
    moved = {(r["site_code"], r["item"], r["was"], r["now"]) for r in rows(out, "changes") if r["kind"] == "order"}
    assert ("A", "C", "M-10: price from 5", "M-10: price from 1") in moved


def test_a_change_of_terms_is_its_own_reason(desk) -> None:
    desk.run()
    desk.made["Customers"][1][9] = "no"
    out = desk.run()
    reasons = {(r["site_code"], r["kind"], r["item"]) for r in rows(out, "changes")}
    assert ("A", "customer terms", "Northmere Schools: order together") in reasons
    assert not any(kind == "order" for _, kind, _ in reasons)


def test_the_nearest_listed_name_is_said_to_the_desk_alone(desk) -> None:
    out = desk.run()
    book = openpyxl.load_workbook(next((out / "sites").glob("F/*-r1.xlsx")))
    text = " ".join(str(c.value) for ws in book for row in ws.iter_rows() for c in row if c.value)
    hint = "The nearest listed name is “Lakeside  League”: did you mean that?"
    assert hint in text
    said = " ".join(desk.said.split())
    assert "The customer “Lake Side Leage” is not listed in the catalogue: no discount, and tax is charged." in said
    assert " ".join(hint.split()) in said
    assert said.count("did you mean") == 1
    sent = words_of(next(data for name, data in workbooks(out).items() if name.startswith("customers/Lake-Side")))
    assert "Lakeside" not in sent  # another customer's name is no matter of this one's quotation


def workbooks(out: Path) -> dict[str, bytes]:
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in sorted((out / "customers").rglob("*")) if p.is_file()}


def words_of(data: bytes) -> str:
    """Everything that a customer's workbook holds: cells, comments, names, headers, properties, as its parts have it."""
    with zipfile.ZipFile(io.BytesIO(data)) as z:
        return html.unescape(
            " ".join(z.read(n).decode("utf-8", "replace") for n in z.namelist() if n.endswith((".xml", ".rels")))
        )


def test_nothing_of_the_desk_or_of_another_customer_stands_in_a_quotation(desk) -> None:
    desk.made["Policy"].append(["lean_limit", 1.75, "deg", "the desk's own caution"])
    out = desk.run()
    books = workbooks(out)
    assert list(books) == [
        "customers/Ground-E/Ground-E-r1.xlsx",
        "customers/Lake-Side-Leage/Lake-Side-Leage-r1.xlsx",
        "customers/Lakeside-League/Lakeside-League-r1.xlsx",
        "customers/Northmere-Schools/Northmere-Schools-r1.xlsx",
    ]
    own = {"Northmere-Schools": "ABC", "Lakeside-League": "D", "Ground-E": "E", "Lake-Side-Leage": "F"}
    names = {"Northmere-Schools": ("Northmere",), "Lakeside-League": ("Lakeside",), "Lake-Side-Leage": ("Leage",)}
    desks = (
        "terms of spring",
        "the desk's own caution",
        "county",
        "rank",
        "ledger",
        *(s.name for s in SETTINGS if "_" in s.name),
    )
    for path, data in books.items():
        whose, text = path.split("/")[1], words_of(data)
        assert [s for s in "ABCDEF" if f"Ground {s}" in text] == list(own[whose])
        assert not [n for other, some in names.items() if other != whose for n in some if n in text]
        assert not [w for w in desks if re.search(rf"\b{re.escape(w)}\b", text, re.I)]
        book = openpyxl.load_workbook(io.BytesIO(data))
        assert book.sheetnames[:4] == ["Quote", "Posts", "Options", "To confirm"]


def test_a_quotation_has_a_new_revision_only_where_it_says_something_else(desk) -> None:
    first = workbooks(desk.run())
    assert workbooks(desk.run()) == first
    desk.survey("D", 2)
    second = workbooks(desk.run())
    assert set(second) - set(first) == {"customers/Lakeside-League/Lakeside-League-r2.xlsx"}
    desk.made["Seller"].append(["warranty", "five years"])
    third = workbooks(desk.run())
    assert [p for p in sorted(set(third) - set(second)) if "five years" in words_of(third[p])] == [
        "customers/Ground-E/Ground-E-r2.xlsx",
        "customers/Lake-Side-Leage/Lake-Side-Leage-r2.xlsx",
        "customers/Lakeside-League/Lakeside-League-r3.xlsx",
        "customers/Northmere-Schools/Northmere-Schools-r2.xlsx",
    ]
    assert {r["revision"] for r in rows(desk.folder / "out", "sites") if r["site_code"] != "D"} == {"1"}
    assert all(third[p] == data for p, data in second.items())


def test_a_quotation_that_was_edited_is_left_and_one_that_is_gone_is_made_again(desk) -> None:
    out = desk.run()
    made = workbooks(out)
    path = out / "customers/Lakeside-League/Lakeside-League-r1.xlsx"
    book = openpyxl.load_workbook(path)
    book.active["A1"] = "edited by hand"
    book.save(path)
    edited = path.read_bytes()
    (out / "customers/Ground-E/Ground-E-r1.xlsx").unlink()
    desk.survey("D", 3)
    now = workbooks(desk.run())
    assert path.read_bytes() == edited
    assert "customers/Lakeside-League/Lakeside-League-r2.xlsx" in now
    assert now["customers/Ground-E/Ground-E-r1.xlsx"] == made["customers/Ground-E/Ground-E-r1.xlsx"]


def test_the_same_inputs_give_the_same_quotations(desk, tmp_path) -> None:
    first = workbooks(desk.run())
    (tmp_path / "out").rename(tmp_path / "before")
    assert workbooks(desk.run("--jobs", "2")) == first


def test_customers_whose_names_look_alike_have_folders_of_their_own(desk) -> None:
    for n, customer in enumerate(("Elm School", "Elm-School", "ELM/School", "con", "Школа", "Школа 2", "../up", "=1+1", "")):
        row = f"X{n},{'Elm School' if not customer else f'Ground {n}'},{customer},1,1,round,3.5,8.5,straight,none"
        (desk.folder / "surveys" / f"X{n}.csv").write_text(f"{HEAD}\n{row}\n", encoding="utf-8")
    out = desk.run()
    got = [r["workbook"] for r in rows(out, "customers")]
    assert len({p.casefold() for p in got}) == len(got) == 13
    assert sorted(got) == sorted(workbooks(out))
    assert all(re.fullmatch(r"customers/([A-Za-z0-9._-]+)/\1-r1\.xlsx", p) for p in got)


def test_pages_are_made_where_libreoffice_is_installed_and_else_it_is_said(desk, monkeypatch) -> None:
    (desk.folder / "surveys" / "F.csv").unlink()
    monkeypatch.setenv("PATH", str(desk.folder))
    words = ["quote", str(desk.folder / "surveys"), "--catalogue", write(desk.made, desk.folder / "catalogue.xlsx")]
    words += ["--out", str(desk.folder / "out"), "--date", "2026-03-02", "--jobs", "1", "--quiet", "--pdf"]
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 0
    assert done.output.count("LibreOffice is not installed") == 1
    office = desk.folder / "soffice"
    office.write_text(
        '#!/bin/sh\nfor last; do :; done\nwhile [ "$1" != --outdir ]; do shift; done\n'
        '/bin/cp "$last" "$2/$(/usr/bin/basename "$last" .xlsx).pdf"\n'
    )
    office.chmod(0o755)
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 0, done.output
    books = [r["workbook"] for r in rows(desk.folder / "out", "customers")]
    assert all(
        (desk.folder / "out" / b).with_suffix(".pdf").read_bytes() == (desk.folder / "out" / b).read_bytes() for b in books
    )
    office.write_text("#!/bin/sh\necho no office today >&2\nexit 3\n")
    (desk.folder / "out" / books[0]).with_suffix(".pdf").unlink()
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 0
    assert "could not be turned into a PDF: no office today" in " ".join(done.output.split())
