"""The remedy of a post without a kit: doing what it says gives one, and its words carry the numbers."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

import numpy as np
import pytest
from rules_case import POLICY, board, extension, feet, fitted, inches, mount, no_load, post, tables

from pipeline.rules.kits import kits
from pipeline.rules.remedy import remedies


def remedy(row, t=None):
    p, c, f = fitted([row], t)
    k = kits(p, c, f, POLICY, no_load)
    (found,) = remedies(p, c, f, POLICY, np.bincount(k.post, minlength=1) > 0)
    return found, len(k.post)


def cured(row, t, found):
    """The row and the tables after what the remedy says."""
    t = dict(t)
    for step in found.steps:
        match step.kind:
            case "strip":
                row = replace(row, old_fittings="none")
            case "straighten":
                row = replace(row, post_line="straight", lean=0.0)
            case "reset":
                row = replace(row, condition="sound")
            case "clear":
                row = replace(row, clear_length=step.amount)
            case "board":
                row = replace(row, least_board_width=step.amount)
            case "replace":
                m = next(m for m in t["Mounts"] if m["mount"] == found.mount)
                kept = {k: getattr(row, k) for k in ("ring_heights", "court_rise", "least_board_width")}
                row = post(post_shape=m["post_shape"], post_size=m["size_least_m"], post_height=step.amount, **kept)
            case "extension":
                m = next(m for m in t["Mounts"] if m["mount"] == found.mount)
                fits = {
                    "post_shape": row.post_shape,
                    "size_least_m": 0.0,
                    "size_most_m": 1.0,
                    "upper_size_m": m["size_least_m"],
                }
                t["Extensions"] = (extension("E-X", added_m=step.amount, upper_clear_m=9.0, joint_length_m=0.0, **fits),)
            case "mount":
                lift = {"post_height_needed_m": 2.0, "for_ring_height_m": 2.0 + step.amount, "clamp_length_m": 0.0}
                size = {"post_shape": row.post_shape, "size_least_m": row.post_size, "size_most_m": row.post_size}
                t["Mounts"] = (*t["Mounts"], mount("M-X", **lift, **size, board_width_most_m=9.0))
                t["Pairings"] = (*t["Pairings"], *({"mount": "M-X", "board": b["board"]} for b in t["Boards"]))
    return row, t


CASES = [
    ("nothing to do", {}, []),
    ("welded fittings", {"old_fittings": "fixed"}, ["strip"]),
    ("too short", {"post_height": feet("7.5")}, ["extension"]),
    ("welded and too short", {"old_fittings": "fixed", "post_height": feet("7.5")}, ["strip", "extension"]),
    ("too little clear", {"clear_length": inches(20)}, ["clear"]),
    ("too little clear and too short", {"clear_length": inches(20), "post_height": feet(8)}, ["extension"]),
    ("too wide a board", {"least_board_width": inches(72)}, ["board"]),
    ("as wide a board as there is, and welded", {"old_fittings": "fixed", "least_board_width": inches(54)}, ["strip"]),
    ("other size", {"post_size": inches(6)}, ["mount"]),
    ("other shape", {"post_shape": "square"}, ["mount"]),
    ("leaning", {"lean": 0.1}, ["straighten"]),
    ("bent and loose", {"post_line": "bent", "condition": "loose"}, ["straighten", "reset"]),
    ("gooseneck", {"post_line": "gooseneck"}, ["replace"]),
    ("cracked, court raised", {"condition": "cracked", "court_rise": 0.2}, ["replace"]),
    ("portable", {"post_base": "portable"}, ["replace"]),
    ("neither round nor square", {"post_shape": "other"}, ["replace"]),
    ("gooseneck and a wide board", {"post_line": "gooseneck", "least_board_width": inches(72)}, ["replace", "board"]),
]


@pytest.mark.parametrize(("what", "change", "kinds"), CASES)
def test_doing_what_the_remedy_says_gives_a_kit(what, change, kinds):
    row, t = post(**change), tables()
    found, many = remedy(row, t)
    assert [s.kind for s in found.steps] == kinds
    assert (found.sentence == "") == (many > 0)
    assert "nan" not in found.sentence
    wide = tables(Boards=(board("B-1"), board("B-9", width_m=inches(72)))) if kinds == ["mount"] else t
    again, more = remedy(*cured(row, wide, found))
    assert more > 0, what
    assert again.sentence == ""


def test_the_words_carry_the_numbers():
    found, _ = remedy(post(old_fittings="fixed", post_height=feet("7.5")))
    assert found.sentence.startswith(
        "Strip the welded fittings off and add at least 1 ft (305 mm) with an extension that the catalogue does not have, "
    )
    assert "for round posts of 3.5 in (88.9 mm), its upper tube 3.4 to 3.6 in (86.4 to 91.4 mm)" in found.sentence
    assert "Or accept a ring at 9 ft (2743 mm), which mount M-1 reaches" in found.sentence
    assert found.serves == "extension of 0.305 m on round 88.9 mm"
    assert found.mount == "M-1"


def test_the_least_change_is_taken():
    low = mount("M-2", post_height_needed_m=feet("8.1"), price=Decimal(999))
    found, _ = remedy(post(post_height=feet("7.5")), tables(Mounts=(mount("M-1"), low)))
    assert found.mount == "M-2"
    assert found.steps[0].amount == pytest.approx(feet("0.6"))


def test_a_ring_too_low_to_be_of_use_is_not_offered():
    found, _ = remedy(
        post(post_height=1.5, ring_heights=(feet(10),)), tables(Mounts=(mount("M-1", for_ring_height_m=feet("8.6")),))
    )
    assert "accept a ring" not in found.sentence


def test_a_catalogue_that_sells_nothing_together_says_so():
    found, _ = remedy(post(), tables(Pairings=()))
    assert found.sentence == "The catalogue has no board and ring that may be sold with a mount."


def test_of_equal_changes_the_cheapest_is_named_and_not_the_first_code():
    t = tables(Mounts=(mount("M-1", price=Decimal(500)), mount("M-2", price=Decimal(300))))
    short, _ = remedy(post(post_height=feet("7.5")), t)
    new, _ = remedy(post(post_line="gooseneck"), t)
    assert (short.mount, new.mount) == ("M-2", "M-2")


@pytest.mark.parametrize(
    ("height", "words"),
    [
        (10, "carries the ring level with the post's top"),
        (9, "carries the ring at least 1 ft (305 mm) above the post's top"),
        (11, "carries the ring at most 1 ft (304 mm) below the post's top"),
    ],
)
def test_nothing_is_never_above_or_below(height, words):
    found, _ = remedy(post(post_size=inches(6), post_height=feet(height)))
    assert words in found.sentence
    assert "0 in" not in found.sentence


@pytest.mark.parametrize(("court", "words"), [(0.3048, "at least 1 ft (305 mm) above"), (-0.3048, "at most 1 ft (304 mm) below")])
def test_another_mount_must_carry_the_ring_over_a_court_that_lies_higher(court, words):
    found, _ = remedy(post(post_size=inches(6), post_height=feet(10), court_rise=court))
    assert f"carries the ring {words} the post's top" in found.sentence
    assert found.steps[0].amount == pytest.approx(court)


@pytest.mark.parametrize(
    ("shape", "size", "taken"),
    [("round", 3.3, "M-2"), ("round", 3.4, "M-1"), ("round", 3.6, "M-1"), ("round", 3.7, "M-2"), ("square", 3.5, "M-2")],
)
def test_a_new_post_is_like_the_old_one_where_a_mount_takes_that(shape, size, taken):
    """M-1 takes round posts of 3.4 to 3.6 in and costs more than M-2, for thicker round posts."""
    t = tables(Mounts=(mount("M-1"), mount("M-2", size_least_m=inches(5), size_most_m=inches(6), price=Decimal(1))))
    found, _ = remedy(post(post_line="gooseneck", post_shape=shape, post_size=inches(size)), t)
    assert found.mount == taken


def test_a_catalogue_without_mounts_has_no_remedy():
    found, many = remedy(post(), tables(Mounts=()))
    assert (found.sentence, many) == ("The catalogue has no board and ring that may be sold with a mount.", 0)


BECAUSE = [
    ({"post_line": "gooseneck"}, "Replace the post, which is a gooseneck, by a straight, sound round post of 3.4 to 3.6 in"),
    ({"condition": "corroded", "post_base": "portable"}, "Replace the post, which is corroded and portable, by"),
    ({"condition": "cracked"}, "which is cracked, by"),
    ({"post_shape": "other"}, "which is neither round nor square, by"),
    ({"post_line": "bent"}, "Straighten or replace the post (it is bent): mount M-1 would then fit."),
    ({"lean": math.radians(3)}, "Straighten or replace the post (it leans 3.0°): mount M-1 would then fit."),
    ({"condition": "loose"}, "Set the loose post firmly, in a footing that an engineer has looked at: mount M-1"),
    ({"clear_length": inches(20)}, "Clear and straighten the post for 2 ft 6 in (762 mm) from its top down: mount M-1"),
    ({"least_board_width": inches(72)}, "Accept a board 54 in (1371.6 mm) wide, the widest that mount M-1 carries"),
    (
        {"post_height": feet("7.5"), "old_fittings": "fixed"},
        "which mount M-1 reaches without an extension, with the rest of it done.",
    ),
]


@pytest.mark.parametrize(("change", "said"), BECAUSE)
def test_the_words_say_what_is_wrong_and_what_to_do(change, said):
    found, _ = remedy(post(**change))
    assert said in found.sentence


@pytest.mark.parametrize(
    ("change", "serves"),
    [({"post_size": inches(6)}, "mount for round 152.4 mm"), ({"post_height": 2.28601}, "extension of 0.305 m on round 88.9 mm"),
     ({"post_height": 2.2850}, "extension of 0.306 m on round 88.9 mm"),
     ({"post_height": feet("8.5") - 0.3}, "extension of 0.300 m on round 88.9 mm"), ({"post_line": "bent"}, "")],
)  # fmt: skip
def test_what_the_catalogue_would_have_to_offer_is_counted_up(change, serves):
    found, _ = remedy(post(**change))
    assert found.serves == serves


def test_a_post_that_an_engineer_has_refused_is_to_be_replaced():
    found, many = remedy(post(strength_cleared="no", cleared_by="An engineer"))
    assert many == 0
    assert found.sentence.startswith("Replace the post, which is refused by an engineer, by a straight, sound round post")


@pytest.mark.parametrize(("height", "offered"), [(0.0, True), (-0.5e-6, True), (-1e-3, False)])
def test_the_lowest_ring_that_is_offered_is_the_policys_least(height, offered):
    """A ring height that is reachable is offered down to ring_height_least, 1.8 m, and no lower."""
    lift = mount("M-1", post_height_needed_m=2.0, for_ring_height_m=2.0, clamp_length_m=0.1)
    found, _ = remedy(post(post_height=1.8 + height, ring_heights=(3.05,)), tables(Mounts=(lift,)))
    assert ("accept a ring" in found.sentence) is offered


def test_a_mount_whose_clamps_have_room_is_named_before_a_cheaper_one_that_wants_more_cleared():
    t = tables(Mounts=(mount("M-1", clamp_length_m=inches(40), price=Decimal(1)), mount("M-2")))
    found, _ = remedy(post(old_fittings="fixed", clear_length=inches(32)), t)
    assert (found.mount, [s.kind for s in found.steps]) == ("M-2", ["strip"])


@pytest.mark.parametrize("change", [{"old_fittings": "fixed"}, {"post_line": "gooseneck"}])
def test_a_mount_whose_boards_are_wide_enough_is_named_before_a_cheaper_one(change):
    t = tables(
        Mounts=(mount("M-1", price=Decimal(1)), mount("M-2", board_width_most_m=inches(72))),
        Boards=(board("B-1"), board("B-9", width_m=inches(72))),
    )
    found, _ = remedy(post(least_board_width=inches(60), **change), t)
    assert (found.mount, "board" in [s.kind for s in found.steps]) == ("M-2", False)


@pytest.mark.parametrize(("clear", "offered"), [(inches(30), True), (inches(30) - 2e-6, False)])
def test_a_lower_ring_is_offered_where_the_clamps_have_room_for_it(clear, offered):
    found, _ = remedy(post(post_height=feet(8), clear_length=clear))
    assert ("accept a ring at 9 ft 6 in" in found.sentence) is offered


@pytest.mark.parametrize(("above", "level"), [(0.0007, True), (-0.0007, True), (0.0009, False), (-0.0009, False)])
def test_less_than_half_a_sixteenth_is_shown_as_nothing(above, level):
    found, _ = remedy(post(post_size=inches(6), post_height=2.9, ring_heights=(2.9 + above,)))
    assert ("level with the post's top" in found.sentence) is level
