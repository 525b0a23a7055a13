"""Cells that cannot be read, through the command: no row is held for them, nothing takes a default, no figure is made up."""

from __future__ import annotations

import csv
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest
from oracle.compare import read

ROOT = Path(__file__).resolve().parents[1]
BEST = {
    "Site code": "U-1", "Site name": "Unread ground", "Post": "", "Post shape": "round", "Post size": "3.5 in",
    "Height above ground": "8.5 ft", "Post line": "straight", "Old fittings": "none", "Condition": "sound", "Lean": "0 deg",
    "Wind speed": "115 mph", "Exposure": "C", "Soil class": "4", "Measured with": "calipers", "Height measured with": "tape",
    "Clear straight length": "102 in", "Footing depth": "100 in", "Footing diameter": "18 in", "Post base": "cast in",
    "Wall thickness": "0.216 in", "Post material": "steel", "Least board width": "40 in", "Strength cleared": "",
    "Cleared by": "",
}  # fmt: skip
"""A post about which nothing is open, in a survey of our own."""

CASES = (
    ("nothing", {}, ""),
    ("lean", {"Lean": "a bit"}, "LEAN;FOOTING"),
    ("wind", {"Wind speed": "strong"}, "FOOTING"),
    ("exposure", {"Exposure": "open"}, "FOOTING"),
    ("soil", {"Soil class": "mud"}, "FOOTING"),
    ("tool", {"Measured with": "some tool", "Height measured with": "a pole"}, "SIZE;HEIGHT"),
    ("clear", {"Clear straight length": "a lot"}, "CLEAR"),
    ("words", {"Post line": "wavy", "Old fittings": "stuff", "Condition": "meh"}, "LINE;FITTINGS;CONDITION"),
    ("base", {"Post base": "sits there"}, "BASE;FOOTING"),
    ("board", {"Least board width": "wide"}, "BOARD"),
    ("said", {"Strength cleared": "perhaps"}, "STRENGTH"),
    ("cleared", {"Post base": "base plate", "Footing depth": "", "Strength cleared": "yes", "Cleared by": "An engineer"}, ""),
    ("refused", {"Strength cleared": "no"}, None),
)

SILENT = (
    ("all stated", {}, "ready"),
    ("condition", {"Condition": ""}, "to_confirm"),
    ("condition in words", {"Condition": "unknown"}, "to_confirm"),
    ("footing depth", {"Footing depth": ""}, "to_confirm"),
    ("footing diameter", {"Footing diameter": ""}, "to_confirm"),
    ("wall", {"Wall thickness": ""}, "to_confirm"),
    ("material", {"Post material": ""}, "to_confirm"),
    (
        "driven, and nothing else",
        {"Post base": "driven", "Condition": "", "Wall thickness": "", "Footing depth": ""},
        "to_confirm",
    ),
    ("an engineer's yes without a name", {"Wall thickness": "", "Strength cleared": "yes"}, "to_confirm"),
    ("an engineer's yes", {"Wall thickness": "", "Strength cleared": "yes", "Cleared by": "An engineer"}, "ready"),
)
"""Sites of one post each, silent on something: silence is never rewarded."""


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("unread")
    with (folder / "s.csv").open("w", encoding="utf-8", newline="") as f:
        writer = csv.DictWriter(f, list(BEST))
        writer.writeheader()
        writer.writerows({**BEST, "Post": name, **cells} for name, cells, _ in CASES)
        writer.writerows({**BEST, "Site code": f"V-{n}", "Post": "1", **cells} for n, (_, cells, _) in enumerate(SILENT))
    words = ("quote", folder / "s.csv", "--catalogue", ROOT / "input_examples" / "catalogue.xlsx", "--out", folder / "out")
    line = [sys.executable, "-m", "pipeline", *map(str, words), "--date", "2026-03-02", "--quiet"]
    done = subprocess.run(line, cwd=ROOT, capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr
    return folder / "out"


def test_each_is_a_confirm_and_nothing_more(out: Path) -> None:
    best = {r["post_code"]: r for r in read(out, "kits") if r["rank"] == "1" and r["site_code"] == "U-1"}
    assert {name: best[name]["confirm"] if name in best else None for name, _, _ in CASES} == {n: c for n, _, c in CASES}


def test_no_figure_is_made_of_what_could_not_be_read(out: Path) -> None:
    best = {r["post_code"]: r for r in read(out, "kits") if r["rank"] == "1" and r["site_code"] == "U-1"}
    posts = {r["post_code"]: r for r in read(out, "posts") if r["site_code"] == "U-1"}
    assert best["nothing"]["load_state"] == "within"
    for name in ("lean", "wind", "exposure"):
        assert (best[name]["load_state"], best[name]["utilisation_storm"], best[name]["moment_storm_N_m"]) == ("unknown", "", "")
    for name in ("lean", "wind", "exposure", "soil", "base"):
        assert best[name]["footing_depth_needed_m"] == "", name
    assert [posts[n][c] for n, c in (("lean", "lean_deg"), ("wind", "wind_speed_m_s"), ("exposure", "exposure"))] == [""] * 3
    assert (posts["tool"]["post_size_uncertainty_m"], posts["tool"]["post_height_uncertainty_m"]) == ("", "")


def test_a_post_whose_footing_condition_or_strength_is_unknown_is_never_ready(out: Path) -> None:
    states = {r["site_code"]: r["state"] for r in read(out, "sites")}
    assert {what: states[f"V-{n}"] for n, (what, _, _) in enumerate(SILENT)} == {what: state for what, _, state in SILENT}


def test_the_site_counts_fit_and_strength_apart(out: Path) -> None:
    site = next(r for r in read(out, "sites") if r["site_code"] == "U-1")
    assert site["state"] == "incomplete"  # the refused post has no kit
    names = {n: set((c or "").split(";")) - {""} for n, _, c in CASES}
    strength = {n for n, c in names.items() if c & {"STRENGTH", "FOOTING"}}
    fit = {n for n, c in names.items() if c - {"STRENGTH", "FOOTING"}}
    assert (site["posts_with_kit"], site["posts_to_confirm"], site["posts_strength_open"]) == (
        str(len(CASES) - 1), str(len(fit)), str(len(strength)),
    )  # fmt: skip


def test_no_page_shows_what_is_not_a_number(out: Path) -> None:
    for path in out.rglob("*.xlsx"):
        for sheet in openpyxl.load_workbook(path):
            shown = {str(c.value) for row in sheet.iter_rows() for c in row if c.value is not None}
            assert not [text for text in shown if "nan" in text.replace(",", " ").replace("±", "").split()], (
                path.name,
                sheet.title,
            )
