"""The working prints the numbers of the screen, names its sources, and stops at nothing."""

from __future__ import annotations

import math

import numpy as np
import pytest
from loads_kits import POLICY, kit, made_up, take

from pipeline.loads.load_arrays import UNKNOWN
from pipeline.loads.screen import screen
from pipeline.loads.working import working

FIGURES = {
    "Moment at the ground, play": "moment_play",
    "Moment at the ground, storm": "moment_storm",
    "Utilisation in play": "utilisation_play",
    "Utilisation in storm": "utilisation_storm",
    "Least stated wall that would carry the worse case": "wall_needed",
    "Depth of footing needed": "footing_depth_needed",
    "Ring deflection under the hanging load": "ring_sag",
    "Mass that is hung on the post": "hung_mass",
}
KITS = made_up(120, seed=21)


@pytest.mark.parametrize("i", range(0, 120, 4))
def test_the_working_has_the_numbers_of_the_screen(i):
    loads, steps = screen(KITS, POLICY), working(take(KITS, slice(i, i + 1)), POLICY)
    results = {s.what: s.result for s in steps}
    for what, name in FIGURES.items():
        np.testing.assert_equal(results[what], getattr(loads, name)[i], err_msg=name)
    state = next(s.what for s in steps if s.what.startswith("Load state"))
    assert state == "Load state: " + ("within", "over", "unknown")[loads.load_state[i]]


def test_every_step_has_its_unit_source_and_words():
    dimensionless = ("factor", "coefficient", "lenderness", "multiplier", "over width")
    for i in range(120):
        steps = working(take(KITS, slice(i, i + 1)), POLICY)
        assert len({s.what for s in steps}) == len(steps)
        for s in steps:
            assert s.what
            assert s.formula
            assert s.source, s.what
            assert s.unit or any(word in s.what for word in dimensionless), s.what
            assert not any(unit == "" and isinstance(x, float) and math.isnan(x) for _, x, unit in s.numbers)


def test_the_steps_follow_the_order_of_the_work():
    names = [s.what for s in working(kit(), POLICY)]
    order = ["Ring above the ground", "Weight of mount, board and ring", "A player hanging on the ring", "A push at the ring",
             "The post's lean", "Wind force on the board, play", "Wind force on the board, storm",
             "Moment at the ground, play", "Bending strength", "Compression strength", "Second-order multiplier, hang",
             "Utilisation in play", "Load state: over", "Depth of footing needed",
             "Ring deflection under the hanging load"]  # fmt: skip
    places = [names.index(n) for n in order]
    assert places == sorted(places)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"wall": math.nan}, "the wall is not stated"),
        ({"steel": False}, "not known to be steel"),
        ({"extended": True, "added": 0.3, "upper_size": 0.1}, "no rated moment"),
        ({"size": 0.3, "wall": 0.0003}, "too slender"),
        ({"lean": math.nan}, "the lean could not be read"),
        ({"exposure": 3}, "the exposure could not be read"),
        ({"wind_speed": math.nan}, "the wind speed could not be read"),
        ({"soil_class": 0, "driven": True}, "the soil class round a driven post could not be read"),
    ],
)
def test_unknown_says_why(changes, words):
    k = kit(**changes)
    assert screen(k, POLICY).load_state.item() == UNKNOWN
    (step,) = [s for s in working(k, POLICY) if s.what == "Load state: unknown"]
    (said,) = [value for name, value, _ in step.numbers if name == "why"]
    assert words in said
    assert math.isnan(step.result)
    assert not any(s.unit == "of strength" and s.what.startswith("Share of") for s in working(k, POLICY))


def test_the_joint_is_shown_with_an_extension_only():
    taller = kit(extended=True, added=0.4, upper_size=0.1, rated_moment=9000.0, extension_mass=6.0)
    joints = [s.what for s in working(taller, POLICY) if "joint" in s.what.lower()]
    assert len([j for j in joints if "joint" in j]) == len(joints) >= 9
    assert not [s for s in working(kit(), POLICY) if "joint" in s.what.lower() or "on the extension" in s.what]


@pytest.mark.parametrize(("base_plate", "driven"), [(False, False), (True, False), (False, True)])
def test_footing_and_soil_are_worked_out_where_there_is_some(base_plate, driven):
    names = [s.what for s in working(kit(base_plate=base_plate, driven=driven), POLICY)]
    assert ("Depth of footing, storm" in names) is not base_plate
    assert ("Depth of footing, permanent loads alone" in names) is not base_plate
    assert any(n.startswith("Depth at which the soil has used up the shear") for n in names) is driven


def test_one_kit_at_a_time():
    with pytest.raises(ValueError, match="takes one kit, not 2"):
        working(kit(wall=[0.003, 0.004]), POLICY)
