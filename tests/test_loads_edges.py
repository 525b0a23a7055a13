"""Both sides of every edge of a rule, and what is not known: it never passes and never fails."""

from __future__ import annotations

import math
import warnings
from dataclasses import replace

import numpy as np
import pytest
from loads_kits import POLICY, kit, made_up

from pipeline.loads import flexure, footing, strength
from pipeline.loads.load_arrays import OVER, UNKNOWN, UNREAD_EXPOSURE, UNREAD_SOIL, WITHIN
from pipeline.loads.screen import figures, load_state, screen
from pipeline.loads.section import round_tube, section, square_tube

FY, E = 207e6, 200e9
ROOT = math.sqrt(E / FY)


def round_at(lam: float) -> float:
    tube = round_tube(np.array([0.1]), np.array([0.1 / lam]))
    return flexure.round_moment(tube, np.array([lam]), FY, E).item() / (FY * tube.elastic.item())


def square_at(lam: float) -> float:
    t = 0.1 / (lam + 3)
    d, wall = np.array([0.1]), np.array([t])
    tube = square_tube(d, wall)
    return flexure.square_moment(tube, d, wall, np.array([lam]), FY, E).item() / (FY * tube.elastic.item())


# shape, edge, Mn/(Fy S) just inside, just outside: the clause's own steps there
FLEXURE_EDGES = [
    (round_at, 0.07 * E / FY, lambda z: z, lambda z: min(z, 1.3)),
    (round_at, 0.31 * E / FY, lambda z: 1 + 0.021 / 0.31, lambda z: 0.33 / 0.31),
    (square_at, 1.12 * ROOT, lambda z: z, lambda z: z),
    (square_at, 1.40 * ROOT, lambda z: z - (z - 1) * 0.998, lambda z: 1.0),
]


@pytest.mark.parametrize(("at", "edge", "inside", "outside"), FLEXURE_EDGES, ids=["F8 0.07", "F8 0.31", "F7 1.12", "F7 1.40"])
def test_flexure_on_both_sides_of_an_edge(at, edge, inside, outside):
    wall = 0.1 / edge if at is round_at else 0.1 / (edge + 3)
    tube = section(np.array([at is square_at]), np.array([0.1]), np.array([wall]))
    z = (tube.plastic / tube.elastic).item()
    assert at(edge * (1 - 1e-9)) == pytest.approx(inside(z), rel=1e-3)
    assert at(edge * (1 + 1e-9)) == pytest.approx(outside(z), rel=1e-3)


def test_a_slender_square_keeps_less_than_its_whole_section():
    assert square_at(1.5 * ROOT) < square_at(1.40 * ROOT) < square_at(1.3 * ROOT) < square_at(1.12 * ROOT)


def test_compression_on_both_sides_of_its_edge():
    """E3: Fy/Fe = 2.25 is KL/r = 4.71 sqrt(E/Fy), where both lines give nearly the same."""
    edge = math.pi * math.sqrt(2.25 * E / FY)
    assert edge == pytest.approx(4.71 * ROOT, rel=1e-3)
    below, above = strength.compression_stress(np.array([edge * (1 - 1e-9), edge * (1 + 1e-9)]), FY, E)
    assert below == pytest.approx(0.658**2.25 * FY, rel=1e-6)
    assert above == pytest.approx(0.877 / 2.25 * FY, rel=1e-6)


@pytest.mark.parametrize(("share", "expected"), [(1 / 3 - 1e-9, 1.5), (1 / 3 + 1e-9, math.inf), (1.0, math.inf), (2.0, math.inf)])
def test_too_slender_is_infinite(share, expected):
    """B up to 1.5 counts; beyond it the utilisation is infinite, past buckling too, and never negative."""
    v = figures(kit(wall=0.006), POLICY)
    axial = share * v["Pe"] / 1.6
    b = strength.second_order(axial, v["Pe"])
    got = strength.post_utilisation(axial, v["Pc"], b, np.array([0.0]), v["Mc"]).item()
    b = b.item()
    if math.isinf(expected):
        assert got == math.inf
        assert b > 1.5
    else:
        assert b == pytest.approx(expected)
        assert 0 < got < 1


@pytest.mark.parametrize(("share", "b"), [(0.0, 1.0), (0.2, 1.25), (1 / 3 - 1e-9, 1.5)])
def test_second_order_multiplies_the_moment_of_the_share(share, b):
    """H1-1b by hand: P/(2 Pc) + B M/Mc, at most 1.5 times the moment's own share."""
    axial, euler, much = np.array([share * 1e4 / 1.6]), np.array([1e4]), np.array([1e6])
    factor = strength.second_order(axial, euler)
    got = strength.post_utilisation(axial, much, factor, np.array([300.0]), np.array([1000.0]))
    assert got.item() == pytest.approx(axial.item() / 2e6 + 0.3 * b)


@pytest.mark.parametrize("square", [False, True])
def test_walls_beyond_the_slenderness_limit_are_unknown(square):
    limit = flexure.least_design_wall(np.array([square]), np.array([0.3]), FY, E).item() / 0.93
    loads = screen(kit(square=square, size=0.3, wall=[limit * (1 + 1e-9), limit * (1 - 1e-9)]), POLICY)
    assert (loads.load_state == UNKNOWN).tolist() == [False, True]
    assert np.isnan(loads.utilisation_play).tolist() == [False, True]


@pytest.mark.parametrize("square", [False, True])
def test_the_slenderness_limit_is_the_clauses(square):
    """Source: AISC 360-16, F8: D/t up to 0.45 E/Fy (memory); of a square, design section 7: (D - 3t)/t up to 5.70 sqrt(E/Fy)."""
    ratio = 5.70 * ROOT + 3 if square else 0.45 * E / FY
    walls = 0.3 / ratio / 0.93 * np.array([1 + 1e-9, 1 - 1e-9])
    assert (screen(kit(square=square, size=0.3, wall=walls), POLICY).load_state == UNKNOWN).tolist() == [False, True]


def test_a_wall_too_slender_to_be_looked_at_is_never_called_enough():
    """So light a load on so wide a post that any wall would do: the least is where the screen starts to know."""
    k = kit(size=0.3, height=1.5, ring_top=1.8, overhang=0.1, mount_mass=5.0, board_mass=8.0, ring_mass=3.0,
            board_width=0.8, board_height=0.6, wind_speed=15.0, exposure=0)  # fmt: skip
    limit = flexure.least_design_wall(k.square, k.size, FY, E) / 0.93
    needed = screen(k, POLICY).wall_needed
    assert needed.item() == pytest.approx(limit.item(), rel=1e-12)
    assert screen(replace(k, wall=needed * (1 + 1e-9)), POLICY).load_state.item() == WITHIN


UNKNOWNS = [
    ("wall not stated", {"wall": math.nan}),
    ("not steel", {"steel": False}),
    ("neither steel nor unknown", {"steel": False, "steel_or_unknown": False}),
    ("no rating", {"extended": True, "added": 0.3, "upper_size": 0.1, "rated_moment": math.nan, "extension_mass": 5.0}),
]


@pytest.mark.parametrize(("why", "changes"), UNKNOWNS, ids=lambda x: x if isinstance(x, str) else "")
@pytest.mark.parametrize("load", [1.0, 60.0], ids=["light", "crushing"])
def test_what_is_not_known_neither_passes_nor_fails(why, changes, load):
    loads = screen(kit(**changes, board_mass=55 * load), POLICY)
    assert loads.load_state.item() == UNKNOWN
    assert np.isnan(loads.utilisation_play.item())
    assert np.isnan(loads.utilisation_storm.item())
    assert loads.moment_play.item() > 0
    assert loads.moment_storm.item() > 0
    assert loads.hung_mass.item() > 0


def test_over_and_within():
    loads = screen(kit(wall=[0.002, 0.012], size=[0.1143, 0.1683]), POLICY)
    assert loads.load_state.tolist() == [OVER, WITHIN]


@pytest.mark.parametrize(("share", "state"), [(1.0, WITHIN), (1 + 0.9e-9, WITHIN), (1 + 1.1e-9, OVER), (math.inf, OVER)])
@pytest.mark.parametrize("case", [0, 1])
def test_a_utilisation_is_compared_with_a_slack_of_1e_9(share, state, case):
    """Source: design section 15."""
    both = [np.array([0.5]), np.array([0.5])]
    both[case] = np.array([share])
    assert load_state(np.array([False]), *both).item() == state


def test_wall_needed_is_asked_of_steel_or_unknown_only():
    loads = screen(kit(wall=math.nan, steel=[True, False, False], steel_or_unknown=[True, True, False]), POLICY)
    assert np.isfinite(loads.wall_needed).tolist() == [True, True, False]
    assert loads.wall_needed[0] == loads.wall_needed[1]


def test_wall_needed_is_blank_where_a_fifth_of_the_size_is_not_enough():
    assert np.isnan(screen(kit(size=0.045, wall=0.003), POLICY).wall_needed.item())


def test_ring_sag_is_blank_where_it_cannot_be_said():
    ext = {"added": 0.3, "upper_size": 0.1, "rated_moment": 9000.0, "extension_mass": 5.0}
    steel = screen(kit(steel=[True, False, False], steel_or_unknown=[True, True, False]), POLICY)
    assert np.isfinite(steel.ring_sag).tolist() == [True, True, False]
    assert np.isnan(screen(kit(wall=math.nan), POLICY).ring_sag.item())
    assert np.isnan(screen(kit(extended=True, **ext), POLICY).ring_sag.item())


def test_footing_is_blank_on_a_base_plate_and_no_confirm_there():
    loads = screen(kit(base_plate=[True, False], footing_depth=0.01), POLICY)
    assert np.isnan(loads.footing_depth_needed).tolist() == [True, False]
    assert loads.footing_confirm.tolist() == [False, True]


@pytest.mark.parametrize(("less", "expected"), [(0.0, False), (0.9e-6, False), (1.1e-6, True), (math.nan, True)])
def test_footing_confirm_has_its_slack(less, expected):
    needed = screen(kit(), POLICY).footing_depth_needed.item()
    assert screen(kit(footing_depth=needed - less), POLICY).footing_confirm.item() is expected


@pytest.mark.parametrize(
    ("changes", "expected"),
    [({}, False), ({"footing_stated": False}, True), ({"footing_stated": False, "driven": True, "footing_depth": 9.0}, False),
     ({"driven": True, "footing_depth": math.nan}, True), ({"base_plate": True, "footing_depth": math.nan}, True)],
)  # fmt: skip
def test_a_footing_that_nobody_knows_is_to_be_confirmed(changes, expected):
    assert screen(kit(**{"footing_depth": 9.0, **changes}), POLICY).footing_confirm.item() is expected


def test_short_term_loads_bear_on_more_soil_and_lasting_ones_do_not():
    """Policy `soil_short_term_factor`: 2 gives what twice the soil gives, unless the permanent loads ask for more."""
    doubled = {**POLICY, "soil_short_term_factor": 2.0}
    assert screen(kit(soil_class=5), doubled).footing_depth_needed == screen(kit(soil_class=3), POLICY).footing_depth_needed
    still = kit(mount_mass=900.0, ring_top=2.0, wind_speed=15.0, board_width=0.1)
    v = figures(still, {**doubled, "play_load": 0.0, "push_load": 0.0})
    assert v["depth"] == v["d.perm"] > max(v["d.hang"], v["d.push"], v["d.storm"])


NOT_READ = [
    ("wind_speed", math.nan, ("moment_storm", "footing_depth_needed", "wall_needed"), ("moment_play", "ring_sag")),
    ("exposure", UNREAD_EXPOSURE, ("moment_play", "moment_storm", "footing_depth_needed", "wall_needed"), ("ring_sag",)),
    ("lean", math.nan, ("moment_play", "moment_storm", "footing_depth_needed", "wall_needed"), ("ring_sag",)),
]


@pytest.mark.parametrize(("name", "value", "blank", "known"), NOT_READ, ids=lambda x: x if isinstance(x, str) else "")
def test_what_was_stated_and_could_not_be_read_leaves_blank_what_needs_it(name, value, blank, known):
    loads = screen(kit(**{name: value}), POLICY)
    assert loads.load_state.item() == UNKNOWN
    for figure in ("utilisation_play", "utilisation_storm", *blank):
        assert np.isnan(getattr(loads, figure).item()), figure
    for figure in known:
        assert np.isfinite(getattr(loads, figure).item()), figure


def test_soil_that_could_not_be_read_leaves_the_footing_blank_and_a_driven_posts_strength_too():
    loads = screen(kit(soil_class=UNREAD_SOIL, driven=[False, True], footing_depth=1.0), POLICY)
    assert np.isnan(loads.footing_depth_needed).all()
    assert np.isnan(loads.utilisation_play).tolist() == [False, True]
    assert (loads.load_state == UNKNOWN).tolist() == [False, True]


def test_a_driven_post_bends_most_below_the_ground():
    loads, v = (f(kit(driven=[False, True]), POLICY) for f in (screen, figures))
    assert loads.moment_play[0] == loads.moment_play[1]
    assert loads.utilisation_storm[1] > 1.02 * loads.utilisation_storm[0]
    assert loads.wall_needed[1] > loads.wall_needed[0]
    assert v["M_max.storm"][0] == v["M.storm"][0]


def test_the_load_is_taken_at_its_own_height():
    """A mount that lifts carries its load above the post's top: second order and lean grow with the ring, not the post."""
    low, high = (figures(kit(height=2.6, ring_top=top, lean=0.02), POLICY) for top in (2.5, 3.0))
    assert (low["h_c"].item(), high["h_c"].item()) == (2.6, 3.0)
    assert high["Pe"].item() == pytest.approx(low["Pe"].item() * (2.6 / 3.0) ** 2)
    assert high["M_N"].item() == pytest.approx(low["M_N"].item() * 3.0 / 2.6)


# a post 2.6 m high with 0.9 m of extension, 102 mm thick above; court 0.1 m up, ring at 3 m, board 1.2 x 0.9 m, 0.8 m out
BY_HAND = {
    "L": 3.5, "z_r": 3.1, "h_c": 3.5, "z_b": 3.4, "z_t": 3.85, "D_m": 0.102, "e_b": 0.851, "e_m": 0.451, "e_r": 1.227,
    "h_j": 0.9, "z_rj": 0.5, "z_bj": 0.8, "m": 60.0, "W": 588.399, "W_L": 3788.399,
    "M_D": 9.80665 * (20 * 0.451 + 25 * 0.851 + 5 * 1.227),
    "M_L": 3200 * 0.851, "M_P": 3100.0, "M_T": 1227.0, "M_PJ": 500.0, "M_N": 0.02 * 3.5 * 588.399, "M_NJ": 0.02 * 0.9 * 588.399,
    "M_NL": 0.02 * 3.5 * 3788.399, "M_NLJ": 0.02 * 0.9 * 3788.399,
}  # fmt: skip


def test_places_weights_and_levers_by_hand():
    """Source: design section 7, worked by hand; FIBA's 150, 151 and 225 mm; 9.80665 m/s2."""
    k = kit(height=2.6, added=0.9, extended=True, upper_size=0.102, court_rise=0.1, ring_top=3.0, board_width=1.2,
            board_height=0.9, overhang=0.8, lean=math.asin(0.02), mount_mass=20.0, board_mass=25.0,
            ring_mass=5.0, extension_mass=10.0)  # fmt: skip
    v = figures(k, POLICY)
    assert {name: v[name].item() for name in BY_HAND} == pytest.approx(BY_HAND, rel=1e-6)


def test_a_driven_post_has_no_footing_of_its_own():
    loads = screen(kit(driven=True, square=[False, True], footing_diameter=[0.45, 0.9]), POLICY)
    b = [0.1143, 0.1143 * math.sqrt(2)]
    poured = screen(kit(square=[False, True], footing_diameter=b), POLICY)
    assert loads.footing_depth_needed.tolist() == pytest.approx(poured.footing_depth_needed.tolist(), rel=1e-12)


@pytest.mark.parametrize("v", [0.0, 1.0])
def test_no_moment_needs_hardly_any_depth(v):
    d = footing.depth(np.array([v]), np.array([0.0]), np.array([0.45]), np.array([23563.0]))
    assert 0 <= d.item() < 0.05


def test_the_board_takes_the_wind_of_its_top_edge():
    """High on a sunken post the top edge passes 15 ft while the board's centre does not."""
    k = kit(ring_top=3.1, court_rise=1.0, board_height=1.2, exposure=2)
    t = figures(k, POLICY)
    assert t["z_b"].item() == pytest.approx(4.55)
    assert t["Kz.board"].item() == pytest.approx(2.01 * (5.15 / 213.36) ** (2 / 11.5), rel=1e-12)
    assert t["Kz.post"].item() == pytest.approx(2.01 * (4.572 / 213.36) ** (2 / 11.5), rel=1e-12)


def test_least_pressure_counts_in_storm_alone():
    """A storm speed no higher than the wind of play: the storm figures stand on the least pressure."""
    loads = screen(kit(wind_speed=[15.0, 16.0]), POLICY)
    assert loads.moment_storm[0] == loads.moment_storm[1]
    calm = screen(kit(wind_speed=15.0), {**POLICY, "least_wind_pressure": 0.0})
    assert calm.moment_storm.item() < loads.moment_storm[0]
    assert calm.moment_play.item() == loads.moment_play[0]


def test_nothing_warns():
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        screen(made_up(500, seed=1), POLICY)
        screen(made_up(0, seed=1), POLICY)


def test_no_kits_no_figures():
    loads = screen(made_up(0, seed=1), POLICY)
    assert all(len(values) == 0 for values in vars(loads).values())


@pytest.mark.slow
def test_a_million_kits_stay_small_and_quick():
    """10,000 posts x 500 kits run in blocks of 100,000: no loop over pairs, well under 1 GiB."""
    import resource
    import time

    block = made_up(100_000, seed=4)
    screen(block, POLICY)
    before, start = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, time.perf_counter()
    for _ in range(10):
        screen(block, POLICY)
    assert time.perf_counter() - start < 30
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 300_000  # KiB
