"""What another catalogue would do: to the cent what a run would give, and nothing in the folder touched."""

from __future__ import annotations

import json
import shutil
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import CliRunner
from nightly_made import DATE, Nights, changed, write_catalogue

from pipeline.cli import main


@pytest.fixture(scope="module")
def quoted(tmp_path_factory: pytest.TempPathFactory) -> Nights:
    nights = Nights(tmp_path_factory.mktemp("preview"))
    nights.night()
    return nights


@pytest.fixture
def nights(quoted: Nights, tmp_path: Path) -> Nights:
    shutil.copytree(quoted.home, tmp_path / "home")
    return Nights(tmp_path / "home")


def everything(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {str(p): (p.read_bytes(), p.stat().st_mtime_ns) for p in sorted(folder.rglob("*")) if p.is_file()}


def preview(nights: Nights, made: dict[str, list[tuple[Any, ...]]], *more: str, status: int = 0) -> tuple[dict[str, Any], str]:
    path = write_catalogue(nights.home / "new.xlsx", made)
    words = ["preview", str(nights.out), "--catalogue", str(path), "--date", DATE, "--jobs", "1", "--json", *more]
    done = CliRunner().invoke(main, words)
    assert done.exit_code == status, done.output
    return (json.loads(done.stdout) if done.stdout else {}), done.stderr


def other(made: dict[str, list[tuple[Any, ...]]]) -> dict[str, list[tuple[Any, ...]]]:
    """SQ-1 withdrawn, RM-1 at a tenth of its price, a board dearer, an extension that no post needs."""
    made = changed(made, "Mounts", "SQ-1", status="withdrawn")
    made = changed(made, "Mounts", "RM-1", price=30)
    return changed(made, "Boards", "BD-1", price=210)


def test_it_says_what_a_run_would_give(nights: Nights, tmp_path: Path) -> None:
    was = {r["site_code"]: r["total"] for r in nights.table("sites")}
    before = everything(nights.out)
    found, said = preview(nights, other(nights.made), "--out", str(tmp_path / "preview.xlsx"))
    assert everything(nights.out) == before

    copy = Nights(shutil.copytree(nights.home, tmp_path / "copy"), made=other(nights.made))
    copy.night()
    now = {r["site_code"]: r for r in copy.table("sites")}
    assert {s["site_code"]: (s["total_was"], s["total"]) for s in found["sites"]} == {c: (was[c], now[c]["total"]) for c in was}
    assert Decimal(found["totals"]["now"]) == sum(Decimal(r["total"]) for r in now.values())
    assert Decimal(found["totals"]["was"]) == sum(map(Decimal, was.values()))
    posts = {(r["site_code"], r["post_code"]): r for r in copy.table("posts")}
    lost = {(k["site_code"], k["post_code"]) for k in found["kits"] if k["now"] is None}
    assert lost == {key for key, r in posts.items() if r["outcome"] == "no_kit"}
    assert found["posts_with_kit"] == {"was": 18, "now": 9}
    assert {p["item"]: (p["slip"], p["quotations"]) for p in found["prices"]} == {"BD-1": (False, 3), "RM-1": (True, 3)}
    assert "about 10 times less" in said

    book = openpyxl.load_workbook(tmp_path / "preview.xlsx")
    assert book.sheetnames == ["Summary", "Sites", "Kits that change", "Prices", "Wanted"]
    assert [row[0] for row in book["Sites"].iter_rows(min_row=4, values_only=True)][:6] == sorted(was)


def test_the_same_catalogue_changes_nothing(nights: Nights) -> None:
    found, said = preview(nights, nights.made)
    assert found["totals"]["was"] == found["totals"]["now"]
    assert (found["kits"], found["prices"], found["broken_promises"]) == ([], [], [])
    assert "Quotations that change: 0 of 6." in said
    words = ["preview", str(nights.out), "--catalogue", str(nights.home / "catalogue.xlsx"), "--date", DATE]
    done = CliRunner().invoke(main, words)
    assert (done.exit_code, done.stdout) == (0, ""), "the answer in short, where no file is named"
    assert "Quotations that change: 0 of 6." in done.stderr


def test_what_is_refused(nights: Nights, tmp_path: Path) -> None:
    _, said = preview(nights, changed(nights.made, "Mounts", "SQ-1", price=-1), status=2)
    assert "nothing was written" in said
    done = CliRunner().invoke(main, ["preview", str(tmp_path), "--catalogue", str(nights.home / "catalogue.xlsx"), "--json"])
    assert done.exit_code == 2
    assert "holds no ledger" in done.stderr


def test_compare_says_first_how_much_moved(nights: Nights) -> None:
    nights.made = other(nights.made)
    nights.night()
    done = CliRunner().invoke(main, ["compare", str(nights.out)])
    lines = done.stdout.splitlines()
    assert "Quotations that change: 6 of 6." in lines
    assert "Posts that gain a kit: 0; that lose theirs: 9; with another kit: 0." in lines
    assert "      3 sites: item withdrawn" in lines
    assert "K-02" not in done.stdout
    found, _ = preview(Nights(nights.home, made=nights.made), nights.made)
    assert found["totals"]["was"] == found["totals"]["now"]
