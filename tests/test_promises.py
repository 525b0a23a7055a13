"""What was sent, accepted or declined: it stands, it ends, it is said. Through the command."""

from __future__ import annotations

import csv
import json
import shutil
import sqlite3
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import CliRunner
from nightly_made import Nights, changed, results, texts

from pipeline.cli import main

LAST_DAY, DAY_AFTER = "2026-04-01", "2026-04-02"
"""The quotations of 2026-03-02 are valid for 30 days."""
MONEY = ("net", "freight", "tax", "total")


@pytest.fixture(scope="module")
def quoted(tmp_path_factory: pytest.TempPathFactory) -> Nights:
    nights = Nights(tmp_path_factory.mktemp("promises"))
    nights.night()
    return nights


@pytest.fixture
def nights(quoted: Nights, tmp_path: Path) -> Nights:
    shutil.copytree(quoted.home, tmp_path / "home")
    return Nights(tmp_path / "home")


def mark(nights: Nights, *words: str, status: int = 0) -> str:
    done = CliRunner().invoke(main, ["mark", str(nights.out), *words])
    assert done.exit_code == status, done.output
    return done.stderr


def row(nights: Nights, code: str, table: str = "sites") -> dict[str, str]:
    return next(r for r in nights.table(table) if r["site_code"] == code)


def lines(nights: Nights, code: str) -> list[dict[str, str]]:
    return [r for r in nights.table("quote_lines") if r["site_code"] == code]


def dearer(nights: Nights) -> None:
    """Everything on the quotations costs more."""
    for table, code, price in (("Mounts", "RM-1", 330), ("Mounts", "SQ-1", 352), ("Boards", "BD-2", 242), ("Rings", "RG-1", 88)):
        nights.made = changed(nights.made, table, code, price=price)


def order_of(nights: Nights) -> None:
    """The customers' sites are ordered together; a break that four posts and more reach."""
    nights.made |= {
        "Customers": [
            ("North District", 10, "no", "", "", "", "", "", "", "yes", "least price"),
            ("South District", 0, "yes", ""),
        ],
        "Price breaks": [("RM-1", 5, 290), ("SQ-1", 5, 300)],
    }


def test_what_was_sent_stands_until_its_last_day_and_moves_the_day_after(nights: Nights) -> None:
    was, were, book = row(nights, "K-01"), lines(nights, "K-01"), nights.workbook("K-01", 1).read_bytes()
    assert mark(nights, "K-01", "sent", "--on", "2026-03-05", "--note", "by mail").startswith("K-01-r1: sent on 2026-03-05.")
    dearer(nights)
    for date in ("2026-03-06", LAST_DAY):
        nights.night(date=date)
        assert row(nights, "K-01") == was | {"promise": "sent"}
        assert (lines(nights, "K-01"), nights.workbook("K-01", 1).read_bytes()) == (were, book)
        assert not nights.workbook("K-01", 2).exists()
        assert row(nights, "K-03")["revision"] == "2"
    listed = set(texts(nights.out / "portfolio.xlsx", "Promises"))
    assert {"by mail", "2026-04-01", "sent"} <= listed
    nights.night(date=DAY_AFTER)
    after = row(nights, "K-01")
    assert (after["revision"], after["promise"]) == ("2", "")
    assert Decimal(after["total"]) > Decimal(was["total"])
    assert ("K-01", "price", "RM-1", "300", "330") in nights.reasons()


def test_what_was_accepted_stands_without_end_and_is_not_renewed(nights: Nights) -> None:
    was = row(nights, "K-02")
    mark(nights, "K-02", "accepted", "--on", "2026-03-05")
    dearer(nights)
    said = nights.night("--jobs", "1", "--renew", date="2027-01-15")
    assert row(nights, "K-02") == was | {"promise": "accepted"}
    assert "K-02-r1, valid until" not in said


def test_a_changed_row_ends_a_promise_and_says_so(nights: Nights) -> None:
    mark(nights, "K-01", "accepted", "--on", "2026-03-05")
    mark(nights, "K-02", "sent", "--on", "2026-03-05")
    for number in (1, 2):
        nights.sites[number][0]["quantity"] = 2
    nights.night(date="2026-03-06")
    for code in ("K-01", "K-02"):
        assert (row(nights, code)["revision"], row(nights, code)["promise"]) == ("2", "")
    ended = {(site, was) for site, kind, _, was, _ in nights.reasons() if kind == "promise ended"}
    assert ended == {("K-01", "accepted on 2026-03-05"), ("K-02", "sent on 2026-03-05")}
    assert any("promise ended" in text for text in texts(nights.workbook("K-01", 2), "Quote"))


def test_an_answer_that_leaves_kits_and_numbers_alone_keeps_the_promise(nights: Nights) -> None:
    was = row(nights, "K-01")
    mark(nights, "K-01", "sent", "--on", "2026-03-05")
    dearer(nights)
    nights.sites[1][0]["condition"] = "surface rust"
    nights.sites[1][1] |= {"footing_depth": 9, "footing_diameter": 18}
    nights.night(date="2026-03-06")
    after = row(nights, "K-01")
    kept = ("revision", "promise", *MONEY, "valid_until", "workbook")
    assert [after[name] for name in kept] == [(was | {"promise": "sent"})[name] for name in kept]


def test_what_no_longer_holds_is_the_first_thing_that_is_said(nights: Nights) -> None:
    mark(nights, "K-01", "accepted", "--on", "2026-03-05")
    mark(nights, "K-02", "sent", "--on", "2026-03-05")
    nights.made = changed(nights.made, "Mounts", "RM-1", status="withdrawn")
    nights.made = changed(nights.made, "Mounts", "SQ-1", size_most_m=3.95)
    said = nights.night(date="2026-03-06")
    assert said.index("Promised, and no longer holds:") < said.index("Surveys")
    assert "K-01-r1, accepted: Posts P1, P2 and P3: RM-1 is withdrawn or no longer listed." in " ".join(said.split())
    assert "K-02-r1, sent: Posts P1, P2 and P3: SQ-1 + BD-2 + RG-1 no longer fits: size." in " ".join(said.split())
    first = texts(nights.out / "portfolio.xlsx", "Overview")[1]
    assert first.startswith("Promised, and no longer holds:\nK-01-r1")
    assert len(json.loads((nights.out / "run.json").read_text())["broken_promises"]) == 2


def test_a_declined_site_is_closed_until_it_is_opened(nights: Nights) -> None:
    was = row(nights, "K-03")
    mark(nights, "K-03", "declined", "--on", "2026-03-05")
    dearer(nights)
    nights.sites[3][0]["quantity"] = 4
    said = nights.night(date="2026-03-06")
    assert row(nights, "K-03") == was | {"promise": "declined"}
    assert sum(int(r["sites"]) for r in nights.table("customers")) == 5
    whole = sum(Decimal(r["total"]) for r in nights.table("customers"))
    assert f"{whole:,}" in said
    assert any(f"{whole:,}" in text for text in texts(nights.out / "portfolio.xlsx", "Overview"))
    mark(nights, "K-03", "open")
    nights.night(date="2026-03-07")
    assert (row(nights, "K-03")["revision"], row(nights, "K-03")["promise"]) == ("2", "")


def test_all_sites_of_a_customer_at_once_and_its_quotation_stands_too(nights: Nights) -> None:
    assert mark(nights, "--customer", "Court 2", "sent", "--on", "2026-03-05").startswith("K-02-r1"), "a customer of its own"
    said = mark(nights, "--customer", "south DISTRICT", "sent", "--on", "2026-03-05")
    assert [line.split(":")[0] for line in said.splitlines()[:2]] == ["K-01-r1", "K-04-r1"]
    before = [r for r in nights.table("customers") if r["customer"] == "South District"]
    dearer(nights)
    nights.night(date="2026-03-06")
    assert [r for r in nights.table("customers") if r["customer"] == "South District"] == before
    sites = [row(nights, code) for code in ("K-01", "K-04")]
    assert Decimal(before[0]["total"]) == sum(Decimal(r["total"]) for r in sites)


def test_a_promised_neighbour_counts_in_the_order_and_keeps_its_share(nights: Nights) -> None:
    """To the cent, by hand from design section 8: 75 kg a site in an order of one freight row."""
    order_of(nights)
    nights.night(date="2026-03-03")
    was = {code: row(nights, code) for code in ("K-03", "K-06")}
    assert {r["customer"] for r in was.values()} == {"North District"}
    mark(nights, "K-03", "accepted", "--on", "2026-03-05")
    for code in ("RM-1", "SQ-1"):
        nights.made = changed(nights.made, "Mounts", code, price=500)
    nights.made |= {"Freight": [(None, 400)]}
    nights.night(date="2026-03-06")
    kept, other = row(nights, "K-03"), row(nights, "K-06")
    assert [kept[name] for name in MONEY] == [was["K-03"][name] for name in MONEY]
    assert Decimal(other["freight"]) == Decimal("400.00") - Decimal(kept["freight"])
    district = next(r for r in nights.table("customers") if r["customer"] == "North District")
    assert [Decimal(district[n]) for n in MONEY] == [Decimal(kept[n]) + Decimal(other[n]) for n in MONEY]
    options = [r for r in nights.table("options") if r["customer"] == "North District" and r["in_force"] == "true"]
    assert [options[0][n] for n in MONEY] == [district[n] for n in MONEY]


def test_an_older_revision_can_be_accepted(nights: Nights) -> None:
    was = row(nights, "K-01")
    dearer(nights)
    nights.night(date="2026-03-06")
    assert row(nights, "K-01")["revision"] == "2"
    mark(nights, "K-01", "accepted", "--revision", "1", "--on", "2026-03-07")
    nights.night(date="2026-03-08")
    assert row(nights, "K-01") == was | {"promise": "accepted"}
    nights.sites[1][0]["quantity"] = 3
    nights.night(date="2026-03-09")
    assert row(nights, "K-01")["revision"] == "3"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("K-1", "sent"), "There is no site K-1. There are, nearest first, K-01"),
        (("--customer", "Nort District", "sent"), "There is no customer Nort District. There are, nearest first, North District"),
        (("K-01", "sent", "--on", "2026-04-02"), "K-01-r1 (valid until 2026-04-01)"),
        (("K-01", "sent", "--revision", "4"), "K-01 has no revision 4; its latest is 1."),
        (("K-01", "lost"), "Say which SITE"),
        (("K-01",), "Say which SITE"),
    ],
)
def test_what_cannot_be_marked_is_said_and_nothing_is(nights: Nights, words: tuple[str, ...], said: str) -> None:
    before = (nights.out / "ledger.sqlite").read_bytes()
    assert said in " ".join(mark(nights, *words, status=2).split())
    assert sqlite3.connect(nights.out / "ledger.sqlite").execute("SELECT COUNT(*) FROM marks").fetchone() == (0,)
    assert (nights.out / "ledger.sqlite").read_bytes() == before


def test_what_was_sent_too_late_is_refused_and_names_renew(nights: Nights) -> None:
    assert "--renew" in mark(nights, "K-01", "sent", "--on", "2026-05-01", status=2)


def test_preview_knows_of_promises_and_takes_what_a_run_would_give(nights: Nights, tmp_path: Path) -> None:
    mark(nights, "K-01", "accepted", "--on", "2026-03-05")
    mark(nights, "K-02", "sent", "--on", "2026-03-05")
    nights.night(date="2026-03-06")
    new = Nights(tmp_path / "new")
    new.made = changed(nights.made, "Mounts", "RM-1", status="withdrawn")
    new.made = changed(new.made, "Mounts", "SQ-1", price=350)
    new.write()
    before = results(nights.out)
    command = ["preview", str(nights.out), "--catalogue", str(new.home / "catalogue.xlsx"), "--date", "2026-03-07", "--json"]
    done = CliRunner().invoke(main, [*command, "--out", str(tmp_path / "preview.xlsx")])
    assert done.exit_code == 0, done.output
    found: dict[str, Any] = json.loads(done.stdout)
    assert results(nights.out) == before
    assert found["broken_promises"] == ["K-01"]
    assert {s["site_code"]: s["promise"] for s in found["sites"] if s["promise"]} == {"K-01": "accepted", "K-02": "sent"}
    shutil.copy(new.home / "catalogue.xlsx", nights.home / "catalogue.xlsx")
    nights.made = new.made
    nights.night(date="2026-03-07")
    assert {s["site_code"]: s["total"] for s in found["sites"]} == {r["site_code"]: r["total"] for r in nights.table("sites")}
    assert "Promise" in [c.value for c in openpyxl.load_workbook(tmp_path / "preview.xlsx")["Sites"][3]]


def test_a_promise_changes_no_other_byte_and_an_unchanged_night_touches_nothing(nights: Nights) -> None:
    before = results(nights.out)
    mark(nights, "K-01", "sent", "--on", "2026-03-05")
    nights.night()
    changed_files = {name for name, data in results(nights.out).items() if before.get(name) != data}
    assert changed_files <= {"data/sites.csv", "portfolio.xlsx", "run.json"}
    stood = {name: (nights.out / name).stat().st_mtime_ns for name in results(nights.out)}
    assert "no file was touched" in nights.night()
    assert {name: (nights.out / name).stat().st_mtime_ns for name in results(nights.out)} == stood


def test_compare_lists_marks(nights: Nights) -> None:
    mark(nights, "K-01", "sent", "--on", "2026-03-05", "--note", "by mail")
    assert "K-01-r1 sent  by mail" in CliRunner().invoke(main, ["compare", str(nights.out)]).stdout
    dearer(nights)
    nights.night(date="2026-03-06")
    done = CliRunner().invoke(main, ["compare", str(nights.out)])
    assert "2026-03-05  K-01-r1 sent  by mail" in done.stdout


def test_prices_that_may_be_slips_are_said(nights: Nights) -> None:
    nights.made = changed(nights.made, "Mounts", "RM-1", price=30)
    new = Nights(nights.home / "new", made=nights.made)
    new.write()
    done = CliRunner().invoke(main, ["check", "--catalogue", str(new.home / "catalogue.xlsx"), "--since", str(nights.out)])
    assert "The price of RM-1 goes from 300 to 30, about 10 times less: is that meant?" in " ".join(done.stderr.split())
    assert "Mounts, RM-9: no post of the folder's surveys could use it." in done.stderr
    assert "RM-2: no post" not in done.stderr
    said = nights.night(date="2026-03-06")
    assert "The price of RM-1 goes from 300 to 30" in " ".join(said.split())
    assert any("The price of RM-1" in text for text in texts(nights.out / "portfolio.xlsx", "Changes"))


def test_two_marks_of_a_customer_are_both_there_or_neither(nights: Nights, monkeypatch: pytest.MonkeyPatch) -> None:
    """A process that dies within the transaction leaves nothing of it."""
    from pipeline.ledger.store import Ledger

    def torn(self: Ledger, marks: list[Any]) -> None:
        self._db.execute("INSERT INTO marks (site, site_code, revision, newest, state, day, note, run) "
                         "VALUES ('k-01', 'K-01', 1, 1, 'sent', '2026-03-05', '', 1)")  # fmt: skip
        raise KeyboardInterrupt

    monkeypatch.setattr(Ledger, "put_marks", torn)
    mark(nights, "--customer", "South District", "sent", "--on", "2026-03-05", status=3)
    with sqlite3.connect(nights.out / "ledger.sqlite") as db:
        assert db.execute("SELECT COUNT(*) FROM marks").fetchone() == (0,)
    monkeypatch.undo()
    assert "no file was touched" in nights.night()


def test_data_files_stay_whole(nights: Nights) -> None:
    mark(nights, "--customer", "North District", "accepted", "--on", "2026-03-05")
    dearer(nights)
    nights.night(date="2026-03-06")
    for path in (nights.out / "data").glob("*.csv"):
        with path.open(newline="") as f:
            assert len({len(r) for r in csv.reader(f, strict=True)}) == 1
    fits = {(r["site_code"], r["post_code"]) for r in nights.table("mount_fit")}
    assert fits == {(r["site_code"], r["post_code"]) for r in nights.table("posts")}
