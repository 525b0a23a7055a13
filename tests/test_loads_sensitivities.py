"""What would change the answer: each figure is the screen's own with one number changed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from loads_kits import POLICY, kit, made_up

from pipeline.loads.screen import screen
from pipeline.loads.sensitivities import COMFORTABLE, INPUTS, measure_next, sensitivities, widest_within

K = made_up(400, seed=31)
U = np.full(400, 0.002)
FOUND = sensitivities(K, POLICY, U, np.radians(2.0))


def worst(k, policy=POLICY):
    loads = screen(k, policy)
    return np.maximum(loads.utilisation_play, loads.utilisation_storm)


@pytest.mark.parametrize(
    ("name", "kits", "policy"),
    [
        ("rusted", replace(K, wall=0.75 * K.wall), POLICY),
        ("soft", K, {**POLICY, "steel_yield": 25 * 6.894757e6}),
        ("windier", replace(K, wind_speed=1.13 * K.wind_speed), POLICY),
    ],
)
def test_a_change_is_what_the_screen_says_of_it(name, kits, policy):
    """Source of 25 ksi in SI: NIST SP 811 (published)."""
    np.testing.assert_allclose(getattr(FOUND, name), worst(kits, policy), rtol=1e-4)
    assert np.isfinite(getattr(FOUND, name)).sum() > 100


def test_the_wind_at_which_it_reaches_1_is_the_least_that_does():
    limit = FOUND.wind_limit
    found = np.isfinite(limit) & (limit > 0)
    assert found.sum() > 30
    at, below = (worst(replace(K, wind_speed=np.where(found, limit + step, 1.0)))[found] for step in (1e-4, -1e-4))
    assert np.all(at >= 1 - 1e-9)
    assert np.all(below <= 1 + 1e-9)
    assert np.all(worst(replace(K, wind_speed=np.zeros(400)))[limit == 0] >= 1)
    assert np.all(worst(replace(K, wind_speed=np.full(400, 150.0)))[np.isinf(limit)] < 1)
    assert np.array_equal(np.isnan(limit), np.isnan(worst(K)))
    assert 100 < limit[found].max() <= 150


def test_a_post_over_without_any_wind_says_so():
    assert sensitivities(kit(size=0.0603, wall=0.003), POLICY, np.array([0.0]), 0.035).wind_limit.tolist() == [0.0]


def test_the_widest_board_within_80_percent():
    post = np.array([0, 0, 0, 1, 2, 2])
    width = np.array([1.0, 1.2, 1.4, 1.1, 1.3, 1.0])
    share = np.array([0.5, COMFORTABLE, 0.81, np.nan, np.inf, 0.2])
    got = widest_within(post, width, share, 4)
    np.testing.assert_array_equal(got, [1.2, np.nan, 1.0, np.nan])


@pytest.mark.parametrize(
    ("swings", "stated", "name"),
    [
        ([0.1, 0.3, 0.5, 0.2, 0.0, 0.0], {}, "wind_speed"),
        ([0.1, 0.3, 0.5, 0.2, 0.0, 0.0], {"wind_speed": True}, "steel"),
        ([0.1, 0.1, 0.0, 0.1, 0.0, 0.0], {"exposure": True}, "wall"),
        ([0.0] * 6, {}, ""),
        ([np.nan] * 6, {}, ""),
        ([0.1, 0.0, 0.0, 0.0, 0.0, 0.4], {"lean": False}, "lean"),
    ],
)
def test_the_one_measurement_that_settles_most(swings, stated, name):
    assert measure_next(np.array(swings), stated) == name


def test_swings_are_the_ends_of_what_an_input_may_be():
    k = kit()
    swings = dict(zip(INPUTS, sensitivities(k, POLICY, np.array([0.0016]), 0.0349).swings[0], strict=True))
    assert swings["size"] == pytest.approx(
        abs(worst(replace(k, size=k.size - 0.0016)) - worst(replace(k, size=k.size + 0.0016)))[0]
    )
    assert swings["wall"] == pytest.approx((worst(replace(k, wall=0.75 * k.wall)) - worst(k))[0])
    assert swings["exposure"] == pytest.approx(
        (worst(replace(k, exposure=k.exposure * 0 + 2)) - worst(replace(k, exposure=k.exposure * 0)))[0]
    )
    assert swings["lean"] == pytest.approx((worst(replace(k, lean=k.lean + 0.0349)) - worst(k))[0])
    grades = [worst(k, {**POLICY, "steel_yield": ksi * 6.894757e6})[0] for ksi in (25, 36)]  # ASTM A53 and A36 (memory)
    winds = [worst(replace(k, wind_speed=k.wind_speed * step))[0] for step in (1.13, 1 / 1.13)]
    assert swings["steel"] == pytest.approx(grades[0] - grades[1], rel=1e-6)
    assert swings["wind_speed"] == pytest.approx(winds[0] - winds[1], rel=1e-9)
    assert all(s > 0 for s in swings.values())
