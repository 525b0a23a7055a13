"""What the trade takes for granted, and sizes and heights of standards, as check values of the rules."""

from __future__ import annotations

from dataclasses import replace

import pytest
from fluids.piping import nearest_pipe
from rules_case import board, feet, fitted, inches, mount, post, state, tables, verdict

from pipeline.rules.catalogue_arrays import catalogue
from pipeline.rules.kits import sets

# Ring height. Source: FIBA Official Basketball Rules, Basketball Equipment: 3.05 m above the floor; NFHS Basketball Rules,
# rule 1: 10 ft. Tolerance +-6 mm: FIBA (memory).
FIBA_RING, NFHS_RING, FIBA_TOLERANCE = 3.05, feet(10), 0.006

LIFTING = mount("M-LIFT")  # common practice, no source: 8 1/2 ft of post for a 10 ft ring, down to 7 1/2 ft by 6 in
HANGING = mount("M-HANG", post_height_needed_m=feet("10.5"), adjustment="fixed", travel_m=0.0, clamp_length_m=inches(24))


def heights(*numbers):
    return tuple(feet(n) for n in numbers)


def test_fibas_ring_and_the_ten_foot_ring_are_one_height_within_fibas_tolerance():
    assert abs(FIBA_RING - NFHS_RING) <= FIBA_TOLERANCE
    _, _, f = fitted([post(ring_heights=(FIBA_RING,)), post(ring_heights=(NFHS_RING,)), post()])
    assert [verdict(f, i) for i in range(3)] == ["viable"] * 3
    assert f.covered[:, 0].tolist() == [1, 1, 1]


@pytest.mark.parametrize(("nps", "inch"), [(2.5, "2.875"), (3, "3.5"), (3.5, "4"), (4, "4.5"), (5, "5.563"), (6, "6.625")])
def test_a_nominal_size_is_not_an_outside_size(nps, inch):
    """Source: ASME B36.10M table 1, outside diameters, as the library `fluids` carries them."""
    outside = nearest_pipe(NPS=nps)[2]
    assert outside == pytest.approx(inches(inch), abs=0.06e-3)
    window = {"size_least_m": inches(nps) - 0.0016, "size_most_m": inches(nps) + 0.0016}
    _, _, f = fitted([post(post_size=outside, size_nominal=True)], tables(Mounts=(mount("M-1", **window),)))
    assert state(f, "SIZE") == "fail"


def test_a_mount_for_three_and_a_half_inch_posts_takes_nominal_3_pipe_and_not_nominal_3_1_2():
    """Source: ASME B36.10M table 1 (`fluids`): NPS 3 is 88.9 mm (3.5 in), NPS 3 1/2 is 101.6 mm (4 in)."""
    rows = [post(post_size=nearest_pipe(NPS=n)[2], size_nominal=True) for n in (3, 3.5)]
    _, _, f = fitted(rows)
    assert [state(f, "SIZE", i) for i in range(2)] == ["pass", "fail"]


def test_a_lifting_mount_on_an_old_post_of_eight_and_a_half_feet():
    """Common practice, no source: 10 ft ring, stepping by 6 in down to 7 1/2 ft; most old posts stand near 8 1/2 ft."""
    row = post(post_height=feet("8.5"), ring_heights=heights(10, "9.5", 9, "8.5", 8, "7.5"))
    _, _, f = fitted([row, replace(row, ring_heights=heights(10, 7))], tables(Mounts=(LIFTING,)))
    assert f.ring_height_max[0, 0] == pytest.approx(feet(10))
    assert f.covered[:, 0].tolist() == [6, 1]
    assert verdict(f) == "viable"


def test_a_mount_that_does_not_lift_needs_ten_and_a_half_feet():
    """Common practice, no source: on a post that serves a lifting mount it is two feet short."""
    _, _, f = fitted([post(post_height=feet("8.5")), post(post_height=feet("10.5"))], tables(Mounts=(HANGING,)))
    assert f.shortfall[:, 0] == pytest.approx([feet(2), 0])
    assert [verdict(f, i) for i in range(2)] == ["not_viable", "viable"]


def test_a_gooseneck_serves_no_such_mount():
    """Common practice, no source."""
    _, _, f = fitted([post(post_line="gooseneck", post_height=feet(12))], tables(Mounts=(LIFTING, HANGING)))
    assert [state(f, "LINE", 0, m) for m in range(2)] == ["fail"] * 2
    assert [verdict(f, 0, m) for m in range(2)] == ["not_viable"] * 2


def test_a_four_inch_square_post_needs_a_mount_of_its_own():
    """Common practice, no source."""
    round_4 = mount("M-R", size_least_m=inches("3.9"), size_most_m=inches("4.6"))
    square_4 = mount("M-S", post_shape="square", size_least_m=inches("3.9"), size_most_m=inches("4.1"))
    _, _, f = fitted([post(post_shape="square", post_size=inches(4))], tables(Mounts=(round_4, square_4)))
    assert [verdict(f, 0, m) for m in range(2)] == ["not_viable", "viable"]
    assert state(f, "SHAPE", 0, 0) == "fail"


@pytest.mark.parametrize(("width", "fits"), [(44, True), (48, True), (54, True), (60, False), (72, False)])
def test_boards_for_these_mounts_run_from_44_to_54_inches(width, fits):
    """Common practice, no source."""
    flat = sets(catalogue(tables(Boards=(board("B-1", width_m=inches(width)),))))
    assert bool(len(flat.mount)) == fits
