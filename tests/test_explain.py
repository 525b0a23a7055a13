"""`postquote explain`: the same numbers as the files, from the folder alone, whatever is asked for."""

from __future__ import annotations

import csv
import re
import shutil
import subprocess
import sys
from collections import defaultdict
from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from oracle.compare import read
from worlds.make import fit_world, money_world, write_world

from pipeline.commands.explain import ExplainError, case_of, explain, left_in
from pipeline.explaining import extension_steps as extensions
from pipeline.explaining import height_steps as heights
from pipeline.explaining.case import Case
from pipeline.explaining.layout import WIDTH, item, number, table
from pipeline.ledger.schema import LedgerError
from pipeline.loads.working import working
from pipeline.rules.kits import Items, load_inputs
from schemas.words import CAUTION, NOT_LOOKED_AT

ROOT = Path(__file__).resolve().parents[1]
COMMAND = (sys.executable, "-m", "pipeline")
FIGURE = r"-?\d[\d.e+-]*"
HEAVY = {"pandas", "pandera", "pint", "pyarrow", "openpyxl", "xlsxwriter", "distributed"}


def command(*words: object, status: int = 0) -> subprocess.CompletedProcess[str]:
    done = subprocess.run(
        [str(w) for w in (*COMMAND, *words)], capture_output=True, text=True, timeout=120, check=False, cwd=ROOT
    )
    assert done.returncode == status, done.stderr
    return done


def quoted(world: object, folder: Path, seed: int, spoil: Callable[[Path], None] = lambda _: None, status: int = 0) -> Path:
    """Quotes a world, then takes surveys and catalogue away: only the output folder is left."""
    surveys, catalogue = write_world(world, folder, seed)  # type: ignore[arg-type]
    spoil(surveys)
    out = folder / "out"
    command("quote", surveys, "--catalogue", catalogue, "--out", out, "--date", "2026-03-02", "--quiet", status=status)
    shutil.rmtree(surveys)
    catalogue.unlink()
    return out


def blank_height(surveys: Path) -> None:
    """Takes a needed cell out of the second post's row."""
    path = surveys / "grounds-1.xlsx"
    book = openpyxl.load_workbook(path)
    heading = next(
        c for row in book.active.iter_rows() for c in row if str(c.value).startswith(("Height above ground", "height"))
    )
    heading.offset(row=2).value = None
    book.save(path)


@pytest.fixture(scope="module")
def money(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Sound posts with kits, and one row that is held."""
    return quoted(money_world(2, posts=20, sites=5), tmp_path_factory.mktemp("money"), 2, blank_height, status=1)


@pytest.fixture(scope="module")
def edges(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Posts on the edges of every rule; most of them get no kit."""
    return quoted(fit_world(6, posts=24, sites=3), tmp_path_factory.mktemp("edges"), 6)


@pytest.fixture(params=["money", "edges"])
def folder(request: pytest.FixtureRequest) -> Path:
    """Both folders, one after the other."""
    return request.getfixturevalue(request.param)


def cases(out: Path, every_mount: bool = True) -> Iterator[Case]:
    """Every quoted post with its own mount, and with every active one."""
    mounts = list(dict.fromkeys(r["mount"] for r in read(out, "mount_fit"))) if every_mount else []
    for site in dict.fromkeys(r["site_code"] for r in read(out, "posts")):
        left = left_in(out, site)
        for row in left.quoted:
            yield from (case_of(left, row, m) for m in ("", *mounts))


def as_in_file(lines: list[str], name: str) -> dict[str, str]:
    """The block that repeats a line of a data file."""
    start = next((n for n, line in enumerate(lines) if f"data/{name}.csv (" in line), None)
    if start is None:
        return {}
    block = (re.fullmatch(r" {4}([a-zA-Z_]+) *(.*)", line) for line in lines[start + 1 : start + 30])
    found: dict[str, str] = {}
    for match in block:
        if match is None and found:
            break
        if match:
            found[match[1]] = match[2]
    return found


def same(shown: dict[str, str], filed: dict[str, str]) -> list[str]:
    """Columns that are shown otherwise than they are filed; figures to nine digits."""
    wrong = []
    for column, text in filed.items():
        got = shown.get(column, text if column in ("site_code", "post_code", "mount") else "nothing")
        figures = re.fullmatch(FIGURE, text) and re.fullmatch(FIGURE, got)
        if not (float(got) == pytest.approx(float(text), rel=2e-9, abs=1e-9) if figures else got == text):
            wrong.append(f"{column}: {got!r} shown, {text!r} filed")
    return wrong


def test_every_figure_of_the_files_is_printed(folder: Path) -> None:
    """kits.csv and mount_fit.csv, for every post with its recommended mount and with two others."""
    best = {(r["site_code"], r["post_code"]): r for r in read(folder, "kits") if r["rank"] == "1"}
    by_mount: dict[tuple[str, ...], dict[str, str]] = {}
    for r in read(folder, "kits"):
        by_mount.setdefault((r["site_code"], r["post_code"], r["mount"]), r)  # ranks rise: the first is the best
    fit = {(r["site_code"], r["post_code"], r["mount"]): r for r in read(folder, "mount_fit")}
    seen: dict[str, int] = defaultdict(int)
    for post in read(folder, "posts"):
        key = post["site_code"], post["post_code"]
        others = [m for s, p, m in fit if (s, p) == key]
        for mount in ("", others[0], others[len(others) // 2]):
            lines = list(explain(folder, *key, mount))
            at = mount or re.search(r"Mount looked at +([^,]+),", "\n".join(lines))[1]
            assert same(as_in_file(lines, "mount_fit"), fit[*key, at]) == []
            filed = by_mount.get((*key, at), {})
            assert same(as_in_file(lines, "kits"), filed) == []
            assert mount or filed == best.get(key, {})
            seen[fit[*key, at]["verdict"]] += 1
            seen[filed.get("load_state", "no kit")] += 1
    assert seen.keys() >= {"viable", "viable_confirm", "viable_extended", "not_viable", "no kit", "within", "over", "unknown"}


def without_lengths(text: str) -> str:
    """Words alone: the file says lengths in the site's units, the working in both systems."""
    return " ".join(w for w in re.findall(r"[a-z]+-?", re.sub(r"\b(ft|in|mm|to)\b", "", text.lower())) if len(w) > 1)


def test_no_line_is_too_long_and_the_caution_stands(folder: Path) -> None:
    for post in read(folder, "posts"):
        lines = list(explain(folder, post["site_code"], post["post_code"], ""))
        assert [line for line in lines if len(line) > WIDTH or line != line.rstrip() or not (line + "x").isprintable()] == []
        text = " ".join(" ".join(lines).split())
        assert text.index(CAUTION) < text.index("Inputs: as typed")
        if "Rough installed load" in text:
            after = text[text.index("Rough installed load") :]
            assert NOT_LOOKED_AT in after
            assert after.count(CAUTION) == 2
        if post["remedy"]:
            helps = text.split("What would help", 1)[1]
            assert without_lengths(helps).startswith(without_lengths(post["remedy"]))


def test_heights_say_what_the_rule_counts(folder: Path) -> None:
    """As many wanted heights are said to be served as the file counts, for every pair."""
    for case in cases(folder):
        text = " ".join(" ".join(heights.heights(case)).split())
        served = len(re.findall(r"\): served; the nearest", text))
        refused = len(re.findall(r"\): not served; the nearest", text))
        fit = case.answer.fit
        assert (served, served + refused) == (int(fit.covered[0, case.mount]), int(fit.wanted[0])), text


def test_the_extension_taken_is_the_first_that_nothing_speaks_against(folder: Path) -> None:
    taken = 0
    for case in cases(folder):
        if not extensions._needed(case):
            assert case.extension_code == ""
            continue
        free = [e for e in extensions.preference(case) if not list(extensions.against(case, e))]
        assert [case.catalogue.extensions.code[e] for e in free[:1]] == ([case.extension_code] if case.extension_code else [])
        taken += bool(free)
    assert taken


def test_every_number_of_a_step_has_a_unit(folder: Path) -> None:
    """No figure without its unit, save plain factors; every name in a step stands in its formula or is a word."""
    plain = {"B", "Cf", "G", "Kd", "Kz", "L/D", "Kh_c/r", "lambda", "factor", "short_term", "soil_class"}
    names: set[str] = set()
    for case in cases(folder, every_mount=False):
        if case.kit >= 0:
            k, n = case.answer.kits, [case.kit]
            items = Items(k.post[n], k.mount[n], k.board[n], k.ring[n])
            for step in working(load_inputs(case.answer.posts, case.catalogue, case.answer.fit, items), case.policy):
                names |= {name for name, value, unit in step.numbers if not unit and not isinstance(value, str)}
    assert names
    assert names <= plain


def test_the_price_is_the_sum_of_what_is_listed(money: Path) -> None:
    """Items and services add up to unit_price; the quotation's lines come to what quote_lines.csv has."""
    totals = {(r["site_code"], r["item"]): r["line_total"] for r in read(money, "quote_lines")}
    for kit in read(money, "kits"):
        if kit["rank"] != "1":
            continue
        text = "\n".join(explain(money, kit["site_code"], kit["post_code"], ""))
        parts = text[text.index("Price of the kit for") : text.index("  Unit price")]
        amounts = re.findall(r" {2,}([\d.]+) [A-Z]{3}$", parts, re.M)
        assert sum(map(Decimal, amounts)) == Decimal(kit["unit_price"])
        lines = " ".join(text[text.index("On the quotation of") : text.index("Rough installed")].split())
        said = re.findall(r"(?:goods|service) (\S+) \d+ x .*? = ([\d.]+) [A-Z]{3}(?:, rounded to ([\d.]+))?", lines)
        assert {i for i, _, _ in said} >= {kit["mount"], kit["board"], kit["ring"]}
        for code, exact, rounded in said:
            assert Decimal(rounded or exact) == Decimal(totals[kit["site_code"], code])


def test_a_held_row_says_what_it_waits_for(money: Path) -> None:
    query = next(q for q in read(money, "queries") if q["holds_row"] == "true")
    done = command("explain", money, query["site_code"].lower(), query["post_code"])
    text = " ".join(done.stdout.split())
    assert f"{query['cell']} {query['code']} {query['message']} Instead: {query['suggestion']}" in text
    assert "Height above ground blank, and needed" in text
    assert "term by term" not in text.lower()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("G99", "P1"), "There is no site G99 of "),
        (("G1", "Q1"), "There is no post Q1 at site G1. There are, nearest first, P1,"),
        (("G1", "P1", "M-0X"), "There is no mount M-0X in the catalogue that was used. There are, nearest first, M-0"),
    ],
)
def test_what_is_unknown_is_answered_with_what_exists(money: Path, words: tuple[str, ...], said: str) -> None:
    done = command("explain", money, *words, status=2)
    assert said in " ".join(done.stderr.split())
    assert done.stdout == ""


def test_a_withdrawn_mount_is_said_to_be(money: Path) -> None:
    left = left_in(money, "g1")
    gone = next(r["mount"] for r in left.kept.tables["Mounts"] if r["status"] == "withdrawn")
    with pytest.raises(ExplainError, match=rf"^Mount {gone} has been withdrawn\. There are, nearest first, "):
        explain(money, "G1", left.quoted[0].post_code, gone)


def test_a_folder_without_a_run(tmp_path: Path) -> None:
    done = command("explain", tmp_path, "G1", "P1", status=2)
    assert "holds no ledger.sqlite" in " ".join(done.stderr.split())
    (tmp_path / "ledger.sqlite").write_text("no database, but long enough to be looked at as one")
    with pytest.raises(LedgerError, match="is damaged"):
        explain(tmp_path, "G1", "P1", "")


def test_nothing_is_written(money: Path) -> None:
    def state() -> list[tuple[str, int, int]]:
        return sorted((str(p), p.stat().st_size, p.stat().st_mtime_ns) for p in money.rglob("*"))

    before = state()
    command("explain", money, "G1", "P1")
    assert state() == before


def test_explain_loads_nothing_heavy(money: Path) -> None:
    """Source of the limit: the project's own, start-up under four times the cost of importing click."""
    code = (
        f"import sys\nfrom pipeline.cli import main\ntry: main(['explain', {str(money)!r}, 'G1', 'P1'])\n"
        "except SystemExit as end: assert not end.code\nprint(*sys.modules, file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert "The working for one post" in done.stdout
    assert not {m.split(".")[0] for m in done.stderr.split()} & HEAVY
    assert "pipeline.sheets" not in done.stderr.split()


def test_explain_loads_nothing_that_it_does_not_need(money: Path) -> None:
    """What is loaded can be counted; what that takes is in the benchmark (tests/bench/speed.py)."""
    code = f"import sys\nfrom pipeline.cli import main\ntry: main(['explain', {str(money)!r}, 'G1', 'P1'])\n"
    code += "except SystemExit as end: assert not end.code, end.code\nprint(*sys.modules, file=sys.stderr)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    loaded = {m.split(".")[0] for m in done.stderr.split()}
    assert not loaded & {
        "pandas",
        "pandera",
        "pint",
        "openpyxl",
        "xlsxwriter",
        "pyarrow",
        "xlrd",
        "distributed",
        "multiprocessing",
    }


@pytest.mark.slow
def test_a_site_that_is_no_longer_asked_for_and_text_that_gives_orders(tmp_path: Path) -> None:
    """It can still be explained, and it is said; nothing from outside reaches a terminal as an order, or runs over its edge."""
    surveys, catalogue = write_world(money_world(4, posts=4, sites=4), tmp_path, 4)
    words = ("--catalogue", catalogue, "--out", tmp_path / "out", "--date", "2026-03-02", "--quiet")
    long = "P-" + "W" * 120
    with (surveys / "one.csv").open("w", newline="", encoding="utf-8") as f:
        heads = "Site code,Site name,Post,Post shape,Post size,Height above ground,Post line,Old fittings,Notes"
        row = ["S", "Ground \u202e of stars", long, "round", "3.5 in", "8.5 ft", "straight", "none", "a\x1b[31mb\x9bc"]
        csv.writer(f).writerows([heads.split(","), row])
    command("quote", surveys, *words)
    (surveys / "grounds-2.xlsx").unlink()
    command("quote", surveys, *words)
    gone = left_in(tmp_path / "out", "G4").quoted[0]
    assert "no longer in the surveys" in " ".join(explain(tmp_path / "out", "G4", gone.post_code, ""))
    lines = list(explain(tmp_path / "out", "S", long, ""))
    assert "no longer in the surveys" not in " ".join(lines)
    assert all(line.isprintable() for line in lines)
    assert max(map(len, lines)) <= WIDTH


def test_lines_fold_under_themselves() -> None:
    assert list(item("Label", "word " * 20, width=10))[1].startswith(" " * 12 + "word")
    narrow = list(table(("a", "b", "why"), [["x" * 40, "y" * 30, "z"]]))
    assert narrow == ["  a " + "x" * 40 + ", b " + "y" * 30 + ",", "      why z"]
    assert [number(v) for v in (2.0, 0.1 + 0.2, float("nan"), float("inf"), -0.0)] == ["2", "0.3", "not known", "INF", "0"]
