"""What is legal and odd in a catalogue: each on both sides of its edge."""

from __future__ import annotations

import json
import subprocess
import sys
from decimal import Decimal
from pathlib import Path

import pytest
from rules_case import board, extension, inches, mount, pounds, ring, tables

from pipeline.intake.catalogue.oddities import oddities

ROOT = Path(__file__).resolve().parents[1]


def breaks(price: str) -> dict:
    return {"Price_breaks": ({"item": "M-1", "from_quantity": 5, "price": Decimal(price)},)}


def window(code: str, least: float, most: float, **more) -> dict:
    return mount(code, size_least_m=inches(least), size_most_m=inches(most), **more)


CASES = [
    ("nothing", {}, []),
    ("takes 3.5 in", {"Mounts": (window("M-1", 3.5, 3.5),)}, []),
    ("between sizes", {"Mounts": (window("M-1", 3.55, 3.9),)}, ["M-1 takes round posts of 3.55 to 3.9 in"]),
    ("square, 4 in", {"Mounts": (window("M-1", 4, 4, post_shape="square"),)}, []),
    ("square, 4.5 in", {"Mounts": (window("M-1", 4.4, 4.6, post_shape="square"),)}, ["M-1 takes square posts of 4.4 to 4.6 in"]),
    ("withdrawn", {"Mounts": (window("M-1", 3.5, 3.5), window("M-9", 3.55, 3.9, status="withdrawn"))}, []),
    ("a gap with 4 in in it", {"Mounts": (window("M-1", 3.4, 3.6), window("M-2", 4.4, 4.6))},
     ["M-2 no mount takes round posts between 3.6 in (M-1) and 4.4 in: 4 in among them"]),
    ("a narrow gap", {"Mounts": (window("M-1", 3.4, 3.5), window("M-2", 3.52, 4.6))},
     ["M-2 no mount takes round posts between 3.5 in (M-1) and 3.52 in."]),
    ("no gap", {"Mounts": (window("M-1", 3.4, 3.6), window("M-2", 3.6, 4.6))}, []),
    ("a gap with nothing in it", {"Mounts": (window("M-1", 3.4, 3.55), window("M-2", 3.9, 4.6))}, []),
    ("a wide window before", {"Mounts": (window("M-1", 3.4, 5), window("M-2", 3.5, 3.5), window("M-3", 4, 4.5))}, []),
    ("unpaired", {"Pairings": ()}, ["B-1 is paired with no mount that is sold"]),
    ("too wide", {"Boards": (board("B-1", width_m=inches(72)),)}, ["B-1 is too wide or too heavy"]),
    ("too heavy", {"Boards": (board("B-1", mass_kg=pounds(101)),)}, ["B-1 is too wide or too heavy"]),
    ("just light enough", {"Boards": (board("B-1", mass_kg=pounds(100)),)}, []),
    ("no ring", {"Rings": (ring("R-1", ring_pattern="6x5"),)}, ["B-1 no ring that is sold has its ring pattern, 5x4"]),
    ("upper tube", {"Extensions": (extension("E-1", upper_size_m=inches(4)),)}, ["E-1 no mount takes its upper tube of 4 in"]),
    ("upper tube taken", {"Extensions": (extension("E-1"),)}, []),
    ("break above", breaks("400.01"), ["M-1 costs 400.01 from 5 on, and 400.00 without the break"]),
    ("break the same", breaks("400.00"), ["M-1 costs 400.00 from 5 on, and 400.00 without the break"]),
    ("break below", breaks("399.99"), []),
]  # fmt: skip


@pytest.mark.parametrize(("what", "change", "expected"), CASES)
def test_oddities(what, change, expected):
    found = [f"{o.item} {o.message}" for o in oddities(tables(**change))]
    assert len(found) == len(expected), (what, found)
    assert all(f.startswith(e) for f, e in zip(found, expected, strict=True)), (what, found)


def test_check_says_them_and_they_are_no_faults():
    catalogue = ROOT / "input_examples" / "catalogue.xlsx"
    line = [sys.executable, "-m", "pipeline", "check", "--catalogue", str(catalogue), "--json"]
    done = subprocess.run(line, cwd=ROOT, capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr
    result = json.loads(done.stdout)
    assert result["catalogue_faults"] == []
    assert all(w["sheet"] and w["item"] and w["message"] for w in result["catalogue_warnings"])
    said = " ".join(done.stderr.split())
    assert all(" ".join(w["message"].split()) in said for w in result["catalogue_warnings"][:3])
