"""Every figure of the screen for two dozen kits, to five digits: steps of the working, parts of moments, sensitivities.

The figures of data/loads.tsv are the screen's own; the oracle and handbooks hold it elsewhere. This table holds each
figure by itself, so that a change of one that hides behind a greater one, or of its words or its source, is seen.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from loads_kits import POLICY, kit
from whole_answers import assert_same, first_said

from pipeline.loads.flexure import effective_modulus
from pipeline.loads.load_arrays import LoadInputs
from pipeline.loads.root import least_root
from pipeline.loads.screen import figures, screen
from pipeline.loads.section import Section
from pipeline.loads.sensitivities import INPUTS, measure_next, sensitivities, widest_within
from pipeline.loads.strength import joint_utilisation
from pipeline.loads.working import parts, working

ROWS = [line.split("\t") for line in (Path(__file__).parent / "data" / "loads.tsv").read_text("utf-8").splitlines()[1:]]

SQUARE = {"square": True, "size": 0.1016, "wall": 0.0048}
EXTENDED = {"extended": True, "added": 0.3, "upper_size": 0.1, "rated_moment": 6000.0, "extension_mass": 12.0, "height": 2.6}
KITS: dict[str, dict[str, Any]] = {
    "plain": {},
    "stated": {"footing_depth": 1.5, "footing_stated": False, "soil_class": 2, "exposure": 0, "lean": 0.02, "court_rise": 0.2},
    "small": {"board_width": 1.1, "board_height": 0.7, "board_mass": 20.0, "overhang": 0.6, "wind_speed": 35.0, "exposure": 2},
    "thin": {"wall": 0.0016, "size": 0.16},
    "thinner": {"wall": 0.0009, "size": 0.22},
    "beyond": {"wall": 0.0005, "size": 0.25},
    "slender": {"size": 0.06, "wall": 0.003},
    "square": SQUARE,
    "square, thin": SQUARE | {"size": 0.15, "wall": 0.0035},
    "square, thinner": SQUARE | {"size": 0.2, "wall": 0.0025, "driven": True},
    "driven": {"driven": True, "soil_class": 3, "footing_depth": 2.0},
    "extended": EXTENDED,
    "extended, square": EXTENDED | SQUARE | {"rated_moment": 2500.0, "driven": True},
    "plate": {"base_plate": True, "lean": 0.03},
    "wall unknown": {"wall": math.nan},
    "material unknown": {"steel": False},
    "joint unknown": EXTENDED | {"rated_moment": math.nan},
    "lean unread": {"lean": math.nan},
    "exposure unread": {"exposure": 3},
    "wind unread": {"wind_speed": math.nan},
    "beyond, soil unread": {"wall": 0.0005, "size": 0.25, "soil_class": 0},
    "soil unread": {"soil_class": 0, "driven": True},
    "hung low": {"height": 4.5, "ring_top": 2.6, "court_rise": -0.3, "footing_diameter": 0.3},
    "deep": {"driven": True, "soil_class": 5, "wind_speed": 65.0},
    "calm": {"wind_speed": 15.0, "board_mass": 150.0, "overhang": 1.8},
}  # fmt: skip


def number(value: Any) -> str:
    return value if isinstance(value, str) else "-" if math.isnan(value) else f"{value + 0.0:.5g}"


def lines_about(name: str) -> Iterator[tuple[str, str]]:
    k = kit(**KITS[name])
    for s in working(k, POLICY):
        into = "; ".join(f"{n} [{unit}]{f' {v}' if isinstance(v, str) else ''}" for n, v, unit in s.numbers)
        yield s.what, f"{number(s.result)} {s.unit}".strip()
        yield f"how: {s.what}", f"{s.formula} | {into} | {s.source}"
    loads = screen(k, POLICY)
    yield "screen", ", ".join(f"{f.name} {number(float(getattr(loads, f.name)[0]))}" for f in fields(loads))
    for p in parts(figures(k, POLICY)):
        yield f"part: {p.what}", f"{number(float(p.play[0]))}, {number(float(p.storm[0]))}"
    found = sensitivities(k, POLICY, np.array([0.0016]), math.radians(2))
    for f in fields(found):
        if f.name != "swings":
            yield f.name, number(float(getattr(found, f.name)[0]))
    swings = found.swings[0]
    yield "swings", ", ".join(f"{n} {number(float(s))}" for n, s in zip(INPUTS, swings, strict=True))
    yield (
        "measure next",
        f"{measure_next(swings, {})}, {measure_next(swings, {'wind_speed': True, 'exposure': True, 'lean': True})}",
    )


def all_lines() -> dict[str, list[tuple[str, str]]]:
    """What is said of each kit; what was said of a kit before it is left out."""
    return first_said((name, list(lines_about(name))) for name in KITS)


@pytest.fixture(scope="module")
def every_line() -> dict[str, list[tuple[str, str]]]:
    return all_lines()


@pytest.mark.parametrize("name", KITS)
def test_every_figure_of_a_kit(name: str, every_line: dict[str, list[tuple[str, str]]]) -> None:
    assert_same(every_line[name], [(what, text) for where, what, text in ROWS if where == name])


def test_the_widest_board_within_four_fifths_of_the_strength() -> None:
    post, width = np.array([0, 0, 1, 1, 3]), np.array([1.1, 1.8, 1.1, 1.4, 1.9])
    share = np.array([0.5, 0.8, 0.8 + 1e-9, math.nan, 0.3])
    np.testing.assert_array_equal(widest_within(post, width, share, 4), [1.8, math.nan, math.nan, 1.9])


def test_kits_are_screened_one_like_the_other() -> None:
    each = [kit(**change) for change in KITS.values()]
    together = LoadInputs(**{f.name: np.concatenate([getattr(k, f.name) for k in each]) for f in fields(LoadInputs)})
    loads = screen(together, POLICY)
    for i, k in enumerate(each):
        alone = screen(k, POLICY)
        for f in fields(loads):
            np.testing.assert_allclose(getattr(loads, f.name)[i], getattr(alone, f.name)[0], rtol=1e-9, err_msg=f.name)


def test_a_root_is_sought_in_its_bracket_alone() -> None:
    low, high = np.array([2.0, 0.5, 0.0, 1.0, 1.5]), np.array([1.5, 0.9, 3.0, 1.0, 2.0])
    found = least_root(lambda x, rows: x - 1.0, low, high, 1e-9)
    np.testing.assert_allclose(found, [math.nan, math.nan, 1.0, 1.0, 1.5], atol=1e-9)


def test_a_strip_lost_from_both_flanges_by_hand() -> None:
    """Source: statics, parallel axes: 2 b t (((D - t)/2)^2 + t^2/12) off the second moment, over D/2."""
    size, wall, lost = (np.array([x]) for x in (0.1, 0.02, 0.03))
    tube = Section(np.array([1e-3]), np.array([1e-5]), np.array([2e-4]), np.array([2.4e-4]))
    by_hand = (1e-5 - 2 * 0.03 * 0.02 * (0.04**2 + 0.02**2 / 12)) / 0.05
    np.testing.assert_allclose(effective_modulus(tube, size, wall, lost), [by_hand], rtol=1e-12)


def test_no_extension_takes_no_share_of_a_joint() -> None:
    yes, no, moment, unrated = np.array([True]), np.array([False]), np.array([500.0]), np.array([math.nan])
    assert joint_utilisation(moment, no, unrated).tolist() == [0.0]
    assert joint_utilisation(moment, yes, np.array([2000.0])).tolist() == [0.25]
    assert np.isnan(joint_utilisation(moment, yes, unrated)).all()
