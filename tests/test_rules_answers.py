"""What the rules say of one small catalogue and some forty posts, to the last word: findings with their numbers, kits in
their order, what was asked for and cannot be had, advice and remedies.

Each row of data/rules.tsv was read through against design sections 4 to 8 when it was written down; the numbers are held
to the oracle elsewhere. The posts stand on both sides of the edges of the rules.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from loads_kits import POLICY as LOADS
from rules_case import board, extension, feet, inches, mount, policy, post, pounds, ring, tables
from whole_answers import assert_same, first_said

from pipeline.loads.screen import screen
from pipeline.rules import plain
from pipeline.rules.advice import advice
from pipeline.rules.arrays import Catalogue, Fit, Kits, Posts
from pipeline.rules.asked import apart, refusals
from pipeline.rules.catalogue_arrays import catalogue
from pipeline.rules.finding_lines import kit_findings, pair_findings
from pipeline.rules.fit import fit
from pipeline.rules.kits import kits, recommended
from pipeline.rules.post_arrays import posts
from pipeline.rules.remedy import remedies
from pipeline.rules.verdict import codes
from schemas.surveyed_post import SurveyedPost
from schemas.words import LOAD_STATES, VERDICTS

ROWS = [line.split("\t") for line in (Path(__file__).parent / "data" / "rules.tsv").read_text("utf-8").splitlines()[1:]]
SETTINGS = policy(**LOADS)

SERVICES = tuple(
    {"service": f"S-{i}", "description": "", "charged": charged, "price": Decimal(price)}
    for i, (charged, price) in enumerate(
        [("per post", "20.05"), ("per post", "1"), ("per extension", "30"), ("per stripped post", "40.5"), ("per site", "500")]
    )
)
TABLES = tables(
    Mounts=(
        mount("M-1"),
        mount("M-2", post_shape="square", size_least_m=inches("3.9"), size_most_m=inches("4.1"), adjustment="continuous"),
        mount(
            "M-3", size_most_m=inches("4.6"), adjustment="fixed", post_height_needed_m=feet(11), clamp_length_m=inches(12),
            overhang_m=inches(72), board_width_most_m=inches(72), board_mass_most_kg=pounds(170), price=Decimal("520.50"),
        ),
        mount("M-10", size_least_m=inches("3.55"), size_most_m=inches("3.9"), price=Decimal("390")),
        mount("M-W", status="withdrawn"),
    ),
    Boards=(
        board("B-1"),
        board("B-2", width_m=inches(72), height_m=inches(42), mass_kg=pounds(150), ring_pattern="5x5", price=Decimal(410)),
        board("B-3", width_m=inches(42), mass_kg=pounds(60), price=Decimal("199.99")),
        board("B-N"),
        board("B-W", status="withdrawn"),
    ),
    Rings=(
        ring("R-1"),
        ring("R-2", kind="breakaway", mass_kg=pounds(32), price=Decimal(150)),
        ring("R-5", ring_pattern="5x5", price=Decimal("95.5")),
        ring("R-6", ring_pattern="6x5"),
    ),
    Extensions=(
        extension("E-1"),
        extension(
            "E-2", joint="spigot", added_m=inches(12), bore_least_m=inches(3), bore_most_m=inches("3.2"), rated_moment_N_m=None,
        ),
        extension("E-4", post_shape="square", size_least_m=inches(4), size_most_m=inches(4), upper_size_m=inches(4)),
    ),
    Services=SERVICES,
    Pairings=tuple(
        {"mount": m, "board": b}
        for m, b in [
            ("M-1", "B-1"), ("M-1", "B-3"), ("M-2", "B-1"), ("M-3", "B-1"), ("M-3", "B-2"), ("M-10", "B-3"), ("M-10", "B-W"),
        ]
    ),
)  # fmt: skip

SAID = {"strength_cleared": "yes", "cleared_by": "An engineer, licence 7"}
STEEL: dict[str, Any] = {"wall": inches("0.216"), "material": "steel", "soil_class": 4, "footing_depth": 1.2}
CASES: dict[str, dict[str, Any]] = {
    "plain": {},
    "steel": STEEL | {"post_base": "cast in", "footing_diameter": 0.6, "post_to_end_line": 0.35},
    "thin": STEEL | {"wall": 0.002, "post_base": "driven"},
    "plate": STEEL | {"post_base": "base plate", "wind_speed": 30.0},
    "cleared": STEEL | SAID | {"cleared_moment": 4500.0, "post_base": "base plate"},
    "cleared for any": STEEL | SAID | {"wall": 0.002},
    "refused": {"strength_cleared": "no"},
    "estimate": {"measured_with": "estimate", "height_measured_with": "estimate"},
    "estimated low": {"height_measured_with": "estimate", "post_height": feet("8.5") - 0.05, "measured_with": "pipe mark"},
    "a little low": {"post_height": feet("8.5") - 0.011},
    "too low": {"post_height": feet("8.5") - 0.013, "wall": inches("0.2")},
    "low, bore too wide": {"post_height": feet(8), "wall": inches("0.1")},
    "low, wall unknown": {"post_height": feet(8), "post_to_end_line": -0.5},
    "low and estimated": {"post_height": feet(8), "height_measured_with": "estimate", "ring_heights": (feet(10), feet(9), 2.44)},
    "far too low": {"post_height": feet(6), "least_board_width": inches(50), "old_fittings": "fixed"},
    "tall": {"post_height": feet(11), "ring_heights": (feet(10), feet("7.5")), "post_to_end_line": 1.5},
    "tall, little clear": {"post_height": feet(11), "clear_length": inches(41)},
    "little clear": {"clear_length": inches(20), "post_line": "tapered"},
    "size at reach": {"post_size": inches("3.4") - 0.001},
    "size out of reach": {"post_size": inches("3.4") - 0.0017},
    "between two": {"post_size": inches("3.58"), "measured_with": "calipers", "old_fittings": "removable"},
    "thick": {"post_size": inches("4.5"), "post_height": feet(11), "lean": math.radians(0.5)},
    "square": {"post_shape": "square", "post_size": inches(4), "ring_heights": (feet(10), feet("8.3")), "post_line": None},
    "square, low": {"post_shape": "square", "post_size": inches(4), "post_height": feet(8)},
    "square by its size": {"post_shape": "square", "shape_inferred": True, "post_size": inches(4), "condition": None},
    "neither": {"post_shape": "other"},
    "leaning": {"lean": math.radians(1.5), "post_base": "ground sleeve"},
    "shimmed": {"lean": math.radians(1.5), "lean_shimmed": "yes", "condition": "surface rust"},
    "leaning much": {"lean": math.radians(3), "post_to_end_line": 0.9},
    "bent and loose": {"post_line": "bent", "condition": "loose", "old_fittings": None},
    "gooseneck": {"post_line": "gooseneck", "post_height": feet(11), "least_board_width": inches(60)},
    "corroded": {"condition": "corroded", "post_base": "portable"},
    "court above": {"court_rise": 0.1, "post_height": feet(9), "footing_depth": 0.3},
    "unread": {"unread": frozenset(("measured_with", "height_measured_with", "clear_length", "post_base", "least_board_width"))},
    "unread too": {"unread": frozenset(("lean", "strength_cleared", "cleared_moment", "soil_class")), "footing_depth": 1.0},
    "wide board": {"least_board_width": inches(60)},
    "wide board, tall": {"least_board_width": inches(60), "post_height": feet(11)},
    "asks for what is": {"mount_asked": "m-1", "board_asked": "B-3", "ring_asked": "R-2"},
    "asks for what is not": {"mount_asked": "M1", "board_asked": "b-w", "ring_asked": "zzz"},
    "asks for what does not fit": {"mount_asked": "M-2", "board_asked": "B-2", "ring_asked": "R-6"},
    "asks for what nothing carries": {"board_asked": "B-N", "mount_asked": "M-3", "ring_asked": "R-5"},
    "asks apart": {"post_height": feet(11), "board_asked": "B-2", "ring_asked": "R-1"},
    "asks too wide": {"board_asked": "B-3", "mount_asked": "M-1", "least_board_width": inches(60)},
    "asks refused": {"mount_asked": "M-1", "strength_cleared": "no"},
}  # fmt: skip
MOUNT = {
    "thick": 2,
    "square": 1,
    "square, low": 1,
    "square by its size": 1,
    "between two": 3,
    "gooseneck": 2,
    "wide board, tall": 2,
}
"""The mount whose findings are written down; elsewhere M-1. Natural order of code: M-1, M-2, M-3, M-10."""


def world(rows: list[SurveyedPost], units: int = plain.BOTH) -> tuple[Posts, Catalogue, Fit, Kits]:
    c = catalogue(TABLES)
    p = replace(posts(rows, c, SETTINGS), units=np.full(len(rows), units, dtype=np.int64))
    f = fit(p, c, SETTINGS)
    return p, c, f, kits(p, c, f, SETTINGS, partial(screen, policy=SETTINGS))


def figures(*values: float) -> str:
    return ", ".join("-" if math.isnan(v) else f"{v:.5g}" for v in values)


def lines_about(i: int, rows: list[SurveyedPost], p: Posts, c: Catalogue, f: Fit, k: Kits) -> Iterator[tuple[str, str]]:
    """Everything that is said of post i, by what it is about; of kits the first four, of one mount all findings."""
    name = list(CASES)[i]
    m = MOUNT.get(name, 0)
    first = recommended(k, len(rows))
    for line in pair_findings(p, c, f, i, m):
        numbers = figures(line.value, line.least, line.most, line.margin)
        yield line.code, f"{line.state}: {line.sentence} [{numbers} {line.unit}]"
    at = np.flatnonzero(k.post == i)
    for x in at[:4]:
        what = "-".join((c.mounts.code[k.mount[x]], c.boards.code[k.board[x]], c.rings.code[k.ring[x]]))
        price, state = int(k.price[x]) * c.price_unit, LOAD_STATES[k.load["load_state"][x]]
        yield (
            "kit",
            f"{k.rank[x]}: {what} {price} {VERDICTS[k.verdict[x]]} {k.covered[x]} {state} {' '.join(codes(int(k.confirm[x])))}",
        )
    if len(at):
        for line in kit_findings(p, k, int(at[0])):
            yield (
                line.code,
                f"{line.state}: {line.sentence} [{figures(line.value, line.least, line.most, line.margin)} {line.unit}]",
            )
    for refused in refusals(rows, p, c, f, k)[i]:
        yield refused.name, f"{refused.reason}: {refused.sentence} {refused.suggestion} [{' '.join(refused.findings)}]"
    for note in (*apart(p, k)[i], *advice(p, c, k, first, np.full(len(rows), 0.9 + i / 100))[i]):
        yield note.about, f"{note.sentence} ({note.source})"
    remedy = remedies(p, c, f, SETTINGS, np.bincount(k.post, minlength=len(rows)) > 0)[i]
    if remedy.sentence:
        steps = "; ".join(f"{s.kind} {figures(s.amount)}" for s in remedy.steps)
        yield "remedy", f"{remedy.sentence} [{remedy.mount}] [{remedy.serves}] [{steps}]"


def all_lines() -> dict[str, list[tuple[str, str]]]:
    """What is said of each post, feet and millimetres in turn; what was said of a post before it is left out."""
    rows = [post(**change) for change in CASES.values()]
    feet_, metric = (world(rows, units) for units in (plain.FEET, plain.METRIC))
    return first_said((name, list(lines_about(i, rows, *(metric if i % 2 else feet_)))) for i, name in enumerate(CASES))


@pytest.fixture(scope="module")
def every_line() -> dict[str, list[tuple[str, str]]]:
    return all_lines()


@pytest.mark.parametrize("name", CASES)
def test_all_that_is_said_of_a_post(name: str, every_line: dict[str, list[tuple[str, str]]]) -> None:
    assert_same(every_line[name], [(about, text) for where, about, text in ROWS if where == name])
