"""The loop that ends: a field sheet goes to the site, is filled in, comes back, and the site is ready, or says why not."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from nightly_made import Nights, results, tables, texts
from nightly_made import site as usual

ENGINEER = "A. Brandt, licence 4711"
HEIGHT = "8 ft 8 in"
FAVOURABLE = {
    "Post shape": "round", "Post size": "3.5 in", "Post line": "straight", "Lean": "0 deg", "Lean shimmed": "yes",
    "Old fittings": "none", "Condition": "sound", "Post base": "cast in", "Clear straight length": "7 ft",
    "Height above ground": HEIGHT, "Wall thickness": "0.3 in", "Strength cleared": "yes", "Footing depth": "10 ft",
    "Footing diameter": "18 in", "Wind speed": "115 mph", "Exposure": "C",
}  # fmt: skip
TOOLS = {"Post size": "calipers", "Height above ground": "level or laser"}
OPEN: dict[str, dict[str, Any]] = {
    "SHAPE": {"post_shape": "", "post_size": "3.5 in OD"},
    "SIZE": {"measured_with": "estimate"},
    "LINE": {"post_line": ""},
    "LEAN": {"lean": 1},
    "LEAN-UNREAD": {"lean": "some"},
    "FITTINGS": {"old_fittings": ""},
    "CONDITION": {"condition": "fair"},
    "BASE": {"post_base": "base plate"},
    "BASE-UNREAD": {"post_base": "who knows"},
    "CLEAR": {"clear_length": "most of it"},
    "HEIGHT": {"height_measured_with": "estimate", "post_height": 8.6},
    "JOINT": {"post_height": 7.6, "wall": ""},
    "STRENGTH": {"wall": 0.04},
    "FOOTING": {"footing_depth": ""},
    "WIND": {"wind_speed": "strong"},
    "TWO": {"condition": "", "quantity": 2},
    "MANY": {"condition": "", "quantity": 20},
}


def rows() -> list[dict[str, Any]]:
    base = usual(1, 1)[0] | {"site_code": "K-01", "wall": 0.3, "footing_depth": 120, "footing_diameter": 18, "post_height": 8.7}
    return [base | {"post_code": name} | more for name, more in OPEN.items()]


@pytest.fixture(scope="module")
def quoted(tmp_path_factory: pytest.TempPathFactory) -> Nights:
    nights = Nights(tmp_path_factory.mktemp("field"), sites={1: rows(), 2: usual(2)})
    spigot = ("XP-1", "Spigot", "round", 3.4, 3.6, "spigot", 12, 10, 3.5, 26, 2.8, 3.2, 9000, 18, 90, "active")
    nights.made = tables() | {"Extensions": [spigot]}
    nights.night()
    return nights


@pytest.fixture
def nights(quoted: Nights, tmp_path: Path) -> Nights:
    shutil.copytree(quoted.home, tmp_path / "home")
    return Nights(tmp_path / "home", sites=quoted.sites, made=quoted.made)


def sheet_of(nights: Nights, code: str = "K-01", revision: int = 1) -> Path:
    return nights.out / "sites" / code / f"{code}-r{revision}-field.xlsx"


def fill(path: Path, to: Path, answers: Mapping[str, Any] | Callable[[dict[str, Any]], Any], **more: Any) -> list[dict[str, Any]]:
    """Fill in the table on Check and save it as `to`; the rows as they stood."""
    book = openpyxl.load_workbook(path)
    sheet = book["Check"]
    head = next(
        r for r in sheet.iter_rows() if [c.value for c in r[:5]] == ["Post", "Question", "Column", "Read as", "New reading"]
    )
    names = [c.value for c in head]
    found = []
    for cells in sheet.iter_rows(min_row=head[0].row + 1):
        row = dict(zip(names, cells, strict=True))
        if row["Column"].value is None:
            break
        said = {name: cell.value for name, cell in row.items()}
        found.append(said)
        value = answers(said) if callable(answers) else answers.get(said["Column"])
        if value is not None:
            row["New reading"].value = value
            row["With"].value = TOOLS.get(said["Column"])
            row["By"].value = ENGINEER if said["Column"] == "Strength cleared" else "B. Ito"
            row["On"].value = more.get("on", "2026-03-09")
            row["Looked at"].value = more.get("looked", "all" if said["Post"] == "MANY" else None)
    to.parent.mkdir(parents=True, exist_ok=True)
    book.save(to)
    return found


def back(nights: Nights, name: str = "field.xlsx") -> Path:
    return nights.home / "surveys" / name


def posts(nights: Nights) -> dict[str, dict[str, str]]:
    return {r["post_code"]: r for r in nights.table("posts") if r["site_code"] == "K-01"}


def state(nights: Nights, code: str = "K-01") -> str:
    return next(r["state"] for r in nights.table("sites") if r["site_code"] == code)


def best(nights: Nights) -> dict[str, dict[str, str]]:
    return {r["post_code"]: r for r in nights.table("kits") if r["site_code"] == "K-01" and r["rank"] == "1"}


def test_every_site_has_its_field_sheet_and_every_kind_of_confirm_is_asked(nights: Nights, tmp_path: Path) -> None:
    assert state(nights) == "to_confirm"
    asked = fill(sheet_of(nights), tmp_path / "filled.xlsx", {})
    by_post: dict[str, set[str]] = {}
    for q in asked:
        by_post.setdefault(q["Post"], set()).add(q["Column"])
    for code, confirm in ((code, r["confirm"]) for code, r in best(nights).items()):
        assert by_post[code], confirm
    assert by_post["SHAPE"] == {"Post shape"}
    assert by_post["CLEAR"] == {"Clear straight length"}
    assert "Lean" in by_post["LEAN-UNREAD"]
    assert len([q for q in asked if q["Post"] == "TWO"]) == 2
    assert [q["Question"][:12] for q in asked if q["Post"] == "MANY"] == ["All 20 posts"]
    assert sheet_of(nights, "K-02").exists()


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_after_a_favourable_field_sheet_the_site_is_ready(nights: Nights, jobs: str) -> None:
    fill(sheet_of(nights), back(nights), FAVOURABLE)
    nights.night("--jobs", jobs, date="2026-03-10")
    assert {code: r["confirm"] for code, r in best(nights).items() if r["confirm"]} == {}
    assert state(nights) == "ready"
    taken = {(r["post_code"], r["name"]): r for r in nights.table("readings") if r["how"] == "field_sheet"}
    assert taken["CLEAR", "clear_length"]["taken_as"] == "2.1336"
    assert (taken["LINE", "post_line"]["file"], taken["LINE", "post_line"]["sheet"]) == ("field.xlsx", "Check")
    assert not [q for q in nights.table("queries") if q["name"] in ("clear_length", "lean", "condition", "wind_speed")]
    survey = " ".join(texts(nights.workbook("K-01", 2), "Survey"))
    assert "measured again on the field sheet field.xlsx, by B. Ito, 2026-03-09" in survey
    assert f"by {ENGINEER}" in survey
    assert f"Cleared by {ENGINEER}" in " ".join(texts(nights.workbook("K-01", 2), "Loads"))
    nights.night("--jobs", jobs, date="2026-03-10")  # nothing changed since, which is said in changes.csv
    assert "no file was touched" in nights.night("--jobs", jobs, date="2026-03-10")


def test_after_an_unfavourable_one_each_post_says_why_not(nights: Nights) -> None:
    unfavourable = {
        "Post shape": "square", "Post size": "3.8 in", "Post line": "gooseneck", "Lean": "9 deg", "Lean shimmed": "no",
        "Old fittings": "fixed", "Condition": "cracked", "Post base": "portable", "Clear straight length": "4 in",
        "Height above ground": "6 ft", "Strength cleared": "no",
    }  # fmt: skip
    fill(sheet_of(nights), back(nights), unfavourable)
    nights.night(date="2026-03-10")
    assert state(nights) == "incomplete"
    fit = {(r["post_code"], r["mount"]): r["failed"] for r in nights.table("mount_fit") if r["site_code"] == "K-01"}
    expected = {
        post: post.removesuffix("-UNREAD") for post in OPEN if post not in ("LEAN", "JOINT", "STRENGTH", "FOOTING", "WIND")
    }
    expected |= {"TWO": "CONDITION", "MANY": "CONDITION"}
    for post, code in expected.items():
        assert code in fit[post, "RM-1"].split(";"), (post, fit[post, "RM-1"])
    lost = {code for code, r in posts(nights).items() if r["outcome"] == "no_kit"}
    assert {*expected, "STRENGTH", "FOOTING"} <= lost
    assert all(r["remedy"] for code, r in posts(nights).items() if code in lost)


def test_the_order_of_files_changes_nothing(nights: Nights, tmp_path: Path) -> None:
    every = []
    for name in ("a-field.xlsx", "z-field.xlsx"):
        home = tmp_path / name[:1]
        shutil.copytree(nights.home, home)
        one = Nights(home, sites=nights.sites, made=nights.made)
        fill(sheet_of(one), back(one, name), FAVOURABLE)
        one.night(date="2026-03-10")
        every.append({n: d for n, d in results(one.out).items() if n == "data/kits.csv" or n == "data/posts.csv"})
    assert every[0] == every[1]


def test_some_answers_leave_the_rest_open_and_the_next_round_asks_for_those(nights: Nights) -> None:
    fill(sheet_of(nights), back(nights, "one.xlsx"), lambda q: FAVOURABLE[q["Column"]] if q["Post"] < "FOO" else None)
    nights.night(date="2026-03-10")
    assert state(nights) == "to_confirm"
    asked = fill(sheet_of(nights, revision=2), back(nights, "two.xlsx"), FAVOURABLE, on="2026-03-12")
    assert {q["Post"] for q in asked}.isdisjoint({"BASE", "CLEAR", "CONDITION"})
    nights.night(date="2026-03-13")
    assert state(nights) == "ready"


def test_what_the_survey_says_otherwise_since_is_a_conflict(nights: Nights) -> None:
    fill(sheet_of(nights), back(nights), FAVOURABLE)
    at = list(OPEN).index("CONDITION")
    nights.sites = {1: [dict(r) for r in nights.sites[1]], 2: nights.sites[2]}
    nights.sites[1][at]["condition"] = "cracked"
    nights.night(status=1, date="2026-03-10")
    (asked,) = [q for q in nights.table("queries") if q["code"] == "CONFLICT"]
    assert (asked["post_code"], asked["name"], asked["holds_row"]) == ("CONDITION", "condition", "true")
    assert "cracked" in asked["message"]
    assert "field.xlsx" in asked["message"]


def test_a_survey_that_says_the_same_by_now_is_none(nights: Nights) -> None:
    fill(sheet_of(nights), back(nights), FAVOURABLE)
    nights.sites = {1: [dict(r) for r in nights.sites[1]], 2: nights.sites[2]}
    nights.sites[1][list(OPEN).index("CONDITION")]["condition"] = "sound"
    nights.night(date="2026-03-10")
    assert state(nights) == "ready"


def test_posts_of_one_row_count_when_all_of_them_were_looked_at(nights: Nights) -> None:
    first = {"Post": "TWO", "Column": "Condition"}
    fill(sheet_of(nights), back(nights), lambda q: "sound" if first.items() <= q.items() and "1 of 2" in q["Question"] else None)
    nights.night(date="2026-03-10")
    assert "CONDITION" in best(nights)["TWO"]["confirm"]
    assert "only 1 of 2 posts" in " ".join(q["message"] for q in nights.table("queries"))
    words = iter(["sound", "surface rust"])
    fill(sheet_of(nights), back(nights), lambda q: next(words) if (q["Post"], q["Column"]) == ("TWO", "Condition") else None)
    nights.night(status=1, date="2026-03-11")
    assert "the posts of this row differ" in " ".join(q["message"] for q in nights.table("queries"))
    fill(sheet_of(nights), back(nights), lambda q: "sound" if q["Post"] == "MANY" else None, looked=None)
    nights.night(date="2026-03-12")
    assert "CONDITION" in best(nights)["MANY"]["confirm"]


def test_two_field_sheets_the_later_day_counts_else_it_is_a_conflict(nights: Nights) -> None:
    def condition(word: str) -> Callable[[dict[str, Any]], Any]:
        return lambda q: word if q["Post"] == "CONDITION" else None

    fill(sheet_of(nights), back(nights, "a.xlsx"), condition("cracked"), on="2026-03-08")
    fill(sheet_of(nights), back(nights, "b.xlsx"), condition("sound"), on="2026-03-09")
    nights.night(date="2026-03-10")
    assert posts(nights)["CONDITION"]["outcome"] != "no_kit"
    fill(sheet_of(nights), back(nights, "a.xlsx"), condition("cracked"), on=None)
    nights.night(status=1, date="2026-03-11")
    assert "two field sheets say otherwise" in " ".join(q["message"] for q in nights.table("queries"))


def test_what_cannot_be_read_or_is_about_nothing_is_asked_at_its_own_cell(nights: Nights) -> None:
    wrong = {"Clear straight length": "about 7 ft", "Condition": "fine-ish"}
    fill(sheet_of(nights), back(nights), lambda q: wrong.get(q["Column"]) if q["Post"] in ("CLEAR", "CONDITION") else None)
    fill(sheet_of(nights, "K-02"), back(nights, "other.xlsx"), {})
    shutil.copy(sheet_of(nights), back(nights, "blank.xlsx"))
    nights.night(date="2026-03-10")
    asked = {(q["file"], q["post_code"], q["code"]) for q in nights.table("queries") if q["file"] == "field.xlsx"}
    assert asked == {("field.xlsx", "CLEAR", "UNREADABLE"), ("field.xlsx", "CONDITION", "NOT_IN_LIST")}
    assert (nights.out / "returns" / "field-marked.xlsx").exists()
    nights.sites = {2: nights.sites[2]}
    nights.night(date="2026-03-11")
    assert "No survey among the files has the site “K-01”" in " ".join(q["message"] for q in nights.table("queries"))


def test_a_yes_that_nobody_signs_counts_as_blank_and_is_asked_about(nights: Nights) -> None:
    fill(sheet_of(nights), back(nights), FAVOURABLE)
    book = openpyxl.load_workbook(back(nights))
    for cells in book["Check"].iter_rows():
        for cell in cells:
            if cell.value == ENGINEER:
                cell.value = None
    book.save(back(nights))
    nights.night(date="2026-03-10")
    assert state(nights) == "to_confirm"
    asked = [q for q in nights.table("queries") if q["name"] == "strength_cleared"]
    assert asked
    assert {(q["file"], q["holds_row"]) for q in asked} == {("field.xlsx", "false")}


def test_a_filled_in_field_sheet_where_it_stands_is_never_overwritten(nights: Nights) -> None:
    fill(sheet_of(nights), sheet_of(nights), FAVOURABLE)
    filled = sheet_of(nights).read_bytes()
    nights.workbook("K-01", 1).unlink()
    nights.night(date="2026-03-10")
    assert nights.workbook("K-01", 1).exists()
    assert sheet_of(nights).read_bytes() == filled
    assert state(nights) == "to_confirm", "what lies among the results is no survey"


def test_an_answer_from_the_site_leaves_a_promise_alone(nights: Nights) -> None:
    from click.testing import CliRunner

    from pipeline.cli import main

    was = next(r for r in nights.table("sites") if r["site_code"] == "K-01")
    assert CliRunner().invoke(main, ["mark", str(nights.out), "K-01", "sent", "--on", "2026-03-05"]).exit_code == 0
    calm = {k: v for k, v in FAVOURABLE.items() if k not in ("Height above ground", "Wall thickness", "Post size")}
    fill(sheet_of(nights), back(nights), calm)
    nights.night(date="2026-03-10")
    now = next(r for r in nights.table("sites") if r["site_code"] == "K-01")
    assert [now[n] for n in ("revision", "total", "promise")] == [was["revision"], was["total"], "sent"]
    assert int(now["posts_to_confirm"]) < int(was["posts_to_confirm"])


@pytest.mark.skipif(not shutil.which("soffice"), reason="LibreOffice is not installed")
def test_it_keeps_what_it_answers_to_through_another_program(nights: Nights, tmp_path: Path) -> None:
    fill(sheet_of(nights), tmp_path / "field.xlsx", FAVOURABLE)
    to = ["--convert-to", "ods", "--outdir", str(tmp_path), str(tmp_path / "field.xlsx")]
    subprocess.run(
        ["soffice", f"-env:UserInstallation=file://{tmp_path}/profile", "--headless", *to], check=True, capture_output=True
    )
    shutil.copy(tmp_path / "field.ods", back(nights, "from the site.ods"))
    nights.night(date="2026-03-10")
    assert state(nights) == "ready"
