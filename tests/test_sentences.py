"""What the sentences of findings and advice say on each side of each of their edges."""

# ruff: noqa: E501 (tables of texts)

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from rules_case import fitted, post

from pipeline.rules import plain
from pipeline.rules.advice import ADVICE, Place
from pipeline.rules.fit import FUNCTIONS
from pipeline.rules.sentences import Facts, board, footing, size, strength

ROUND = {"shape": "round"}
TELL = {code: say for code, (_, say) in FUNCTIONS.items()} | {"BOARD": board, "STRENGTH": strength, "FOOTING": footing}
SIZE = Facts("pass", value=0.0889, least=0.0864, most=0.0914, post=ROUND, size_uncertainty=0.0016)


@pytest.mark.parametrize(
    ("state", "estimated", "says", "says_not"),
    [
        ("pass", False, ", within the mount's", "Measure"),
        ("confirm", True, "is estimated at 3.5 in (88.9 mm)", "Measure again"),
        ("confirm", True, "Measure it: a tape round the post must read", "reach"),
        ("confirm", False, "but within reach of the measurement. Measure again: a tape round the post must read", "estimated"),
        ("fail", False, "altogether. A tape round the post must read", "reach"),
        ("fail", True, "altogether. A tape", "estimated at"),
    ],
)
def test_size_says_how_far_a_measurement_reaches(state, estimated, says, says_not):
    told = size(replace(SIZE, state=state, size_estimated=estimated))
    assert says in told
    assert says_not not in told


@pytest.mark.parametrize("shape", ["round", "square"])
def test_only_round_posts_are_measured_with_a_tape(shape):
    told = size(replace(SIZE, post={"shape": shape}))
    assert ("A tape round the post must read 10.686 to 11.305 in" in told) == (shape == "round")
    assert ("two faces at right angles" in told) == (shape == "square")


@pytest.mark.parametrize(
    ("state", "share", "said"),
    [
        ("confirm", 1.0001, "is 101 % of the post's rough strength: only a licensed engineer can clear it."),
        ("confirm", 1.2, "is 120 % of the post's rough strength: only"),
        ("pass", 0.874, "is 87 % of the post's rough strength; this is a screen and no design."),
        ("pass", 0.876, "is 88 % of the post's"),
        ("confirm", math.inf, "too slender for this screen: only a licensed engineer"),
        ("unknown", math.nan, "strength is not known; a licensed engineer must look at it."),
    ],
)
def test_strength_says_its_share_and_never_less_where_it_is_over(state, share, said):
    assert said in strength(Facts(state, value=share, most=1.0))


@pytest.mark.parametrize(
    ("state", "stated", "needed", "base", "said"),
    [
        ("confirm", 1.2, 1.3, "cast in", "(1200 mm) is stated: have it looked at."),
        ("pass", 1.4, 1.3, "cast in", "(1400 mm) is stated."),
        ("confirm", math.nan, 1.3, "cast in", "; how deep it is, is not known: have it looked at."),
        ("unknown", math.nan, math.nan, "base plate", "is not known."),
    ],
)
def test_footing_says_what_is_asked_for_and_what_is_stated(state, stated, needed, base, said):
    told = footing(Facts(state, value=stated, least=needed, post={"base": base}))
    assert told.endswith(said)
    assert ("never less than the local frost depth" in told) == (needed == needed)
    assert ("the anchors of a base plate are for an engineer" in told) == (base == "base plate")


TOLD = [  # rule, what there is to say, how its sentence goes in millimetres
    ("SHAPE", {"state": "fail", "post": {"shape": "other"}, "takes": "round"}, "neither round nor square; the mount takes round posts."),
    ("SHAPE", {"state": "confirm", "post": ROUND, "takes": "round"}, "not stated; its size says that it is round"),
    ("SHAPE", {"state": "pass", "post": ROUND, "takes": "round"}, "The post is round, and the mount takes round posts."),
    ("SHAPE", {"state": "fail", "post": ROUND, "takes": "square"}, "The post is round; the mount takes square posts."),
    ("SIZE", {"state": "confirm", "unread": frozenset({"measured_with"})}, "said to measure 88.9 mm; how that was taken could not be read."),
    ("BASE", {"unread": frozenset({"post_base"})}, "could not be read: look and confirm."),
    ("BASE", {"post": {"base": "driven"}}, "The post is driven;"),
    ("LEAN", {"value": math.nan}, "could not be read: measure it."),
    ("LEAN", {"state": "pass", "value": 0.004, "most": 0.006}, "stand 4 mm out of level, within 6 mm."),
    ("LEAN", {"state": "pass", "value": 0.012, "most": 0.0157, "shimmed": True}, "within 15.7 mm, and the lean is shimmed."),
    ("LEAN", {"state": "confirm", "value": 0.012, "most": 0.006}, "above 6 mm: shim the mount or straighten the post."),
    ("LEAN", {"state": "fail", "value": 0.02, "most": 0.0157}, "beyond the limit of 15.7 mm"),
    ("CLEAR", {"state": "pass", "value": 0.7621, "most": 0.9009}, "need 763 mm of straight, clear length from the top of the post down; there is 900 mm."),
    ("CLEAR", {"state": "fail", "value": 0.762, "most": 0.5}, "down; there is only 500 mm."),
    ("CLEAR", {"state": "confirm", "value": 0.762}, "how much there is, is not known: measure it."),
    ("CLEAR", {"state": "confirm", "value": 0.762, "extension": "E-1"}, "the upper tube of extension E-1 down; how much of the post itself"),
    ("HEIGHT", {"state": "pass", "value": 3.0489, "target": 3.048}, "The ring reaches 3048 mm; 3048 mm is wanted."),
    ("HEIGHT", {"state": "pass", "value": 3.1, "target": 3.048, "extension": "E-1", "added": 0.61}, "with extension E-1 (610 mm); 3048"),
    ("HEIGHT", {"state": "fail", "value": 2.7434, "target": 3.048}, "reaches 2743 mm; 3048 mm is wanted: 305 mm short, and no extension"),
    ("HEIGHT", {"state": "confirm", "unread": frozenset({"height_measured_with"})}, "height was taken could not be read"),
    ("HEIGHT", {"state": "confirm", "height_estimated": True, "height_uncertainty": 0.075}, "only estimated, give or take 75 mm"),
    ("HEIGHT", {"state": "confirm", "height_uncertainty": 0.006}, "short by no more than the measurement's uncertainty, give or take 6 mm"),
    ("JOINT", {"state": "pass"}, "No extension is used."),
    ("JOINT", {"state": "pass", "extension": "E-1", "least": math.nan, "most": math.nan}, "Extension E-1 goes on the post."),
    ("JOINT", {"state": "confirm", "extension": "E-1"}, "enters a bore of 86.4 to 91.4 mm, and the post's wall is not stated"),
    ("JOINT", {"state": "confirm", "extension": "E-1", "most": math.nan}, "enters a bore that suits it, and"),
    ("JOINT", {"state": "confirm", "extension": "E-1", "least": math.nan, "most": math.nan}, "enters a bore that suits it, and"),
    ("JOINT", {"state": "pass", "extension": "E-1"}, "enters a bore of 86.4 to 91.4 mm; the post's is 88.9 mm."),
    ("BOARD", {"state": "confirm"}, "could not be read: confirm that this one is wide enough."),
    ("BOARD", {"state": "pass"}, "may be sold together"),
    ("BOARD", {"state": "fail"}, "No board of the catalogue is paired with the mount"),
    ("STRENGTH", {"unread": frozenset({"strength_cleared"})}, "What is said of the strength on the survey could not be read"),
    ("STRENGTH", {"state": "pass", "value": 1.2, "cleared": True}, "is 120 % of the post's rough strength; a licensed engineer has cleared it for any kit"),
    ("STRENGTH", {"state": "pass", "value": 1.2, "cleared": True, "cleared_moment": 4321.4}, "for moments at the ground up to 4321 N m, as"),
    ("FOOTING", {"state": "pass", "least": 1.3001, "value": 1.2, "cleared": True}, "a footing 1301 mm deep, and never less than the local frost depth; a licensed"),
    ("FOOTING", {"state": "confirm", "least": math.nan, "value": 1.2, "post": {"base": "cast in"}}, "since what it hangs on could not be read; 1200 mm is stated"),
]  # fmt: skip


@pytest.mark.parametrize(("code", "facts", "said"), TOLD)
def test_what_each_rule_says_in_each_of_its_cases(code, facts, said):
    assert said in TELL[code](replace(SIZE, units=plain.METRIC, **{"state": "pass", **facts}))


def about(**values: object) -> dict[str, str]:
    """Advice about one post with a kit of 1.65 m overhang, by what it is about."""
    frequency = float(values.pop("frequency", 2.0))  # type: ignore[arg-type]
    overhang = float(values.pop("overhang", 1.65))  # type: ignore[arg-type]
    p, _, _ = fitted([post(**values)])
    return {n.about: n.sentence for rule in ADVICE for n in rule(Place(p, 0, overhang, frequency))}


@pytest.mark.parametrize(("speed", "said"), [(37.99, True), (38.0, False), (38.01, False), (51.4, False)])
def test_a_design_wind_below_38_is_asked_about(speed, said):
    """Source: ASCE 7-16, figure 26.5-1, 85 mph is 38 m/s (memory)."""
    assert ("Wind speed" in about(wind_speed=speed)) is said


@pytest.mark.parametrize(("hertz", "said"), [(0.99, True), (1.0, False), (float("nan"), False)])
def test_a_post_under_1_hertz_is_said_to_flex(hertz, said):
    assert ("Flexing post" in about(frequency=hertz)) is said


@pytest.mark.parametrize(
    ("values", "about_what"),
    [
        ({"condition": None}, ["Condition", "Post base"]), ({"condition": "sound"}, ["Post base"]),
        ({"condition": "surface rust", "post_base": "cast in"}, []), ({"condition": "sound", "post_base": "driven"}, []),
    ],
)  # fmt: skip
def test_what_is_not_known_of_the_post_is_said(values, about_what):
    told = about(**values)
    assert [a for a in ("Condition", "Post base") if a in told] == about_what
    assert all("not known" in told[a] for a in about_what)


@pytest.mark.parametrize(
    ("overhang", "words", "practice"),
    [(3.25, "class A", False), (3.24, "class B", False), (2.25, "class B", False), (1.65, "class C", False),
     (1.649, "class D", True),
     (1.2, "class D", True), (1.199, "class E", True), (0.6, "class E", True), (0.599, "less than the least class", True)],
)  # fmt: skip
def test_free_space_in_its_classes(overhang, words, practice):
    """Source: EN 1270, free space classes (memory)."""
    told = about(overhang=overhang)["Free space"]
    assert words in told
    assert ("shooting practice only" in told) is practice


@pytest.mark.parametrize(
    ("away", "said"),
    [(-0.5, "on the court"), (0.5, "beyond the end line"), (1.999, "within the 6 ft 6 3/4 in (2000 mm)"), (2.0, "")],
)
def test_a_post_near_the_end_line_wants_padding(away, said):
    told = about(post_to_end_line=away).get("Padding", "")
    assert said in told if said else not told


@pytest.mark.parametrize(
    ("line", "said"),
    [(0.35, "as asked"), (0.356, "as asked"), (0.3565, "less than that"), (0.3435, "more than that"), (1.7, "outside")],
)
def test_the_boards_face_against_the_end_line(line, said):
    """1.6 m of overhang, 50 mm of line: 1.2 m inside where the post stands 0.35 m off (FIBA, memory)."""
    assert said in about(overhang=1.6, post_to_end_line=line)["Board and end line"]


@pytest.mark.parametrize(
    ("sixteenths", "said"),
    [(0, "0 in"), (8, "1/2 in"), (16, "1 in"), (24, "1 1/2 in"), (192, "1 ft"), (200, "1 ft 1/2 in"), (-8, "-1/2 in")],
)  # fmt: skip
def test_feet_and_inches_as_people_write_them(sixteenths, said):
    assert plain.height(sixteenths * 0.0254 / 16, plain.FEET) == said


@pytest.mark.parametrize(
    ("units", "said"),
    [
        (plain.BOTH, "8 ft 6 1/2 in (2604 mm) short of 3.4 to 3.6 in (86.4 to 91.4 mm), 85 mph (38.0 m/s)"),
        (plain.FEET, "8 ft 6 1/2 in short of 3.4 to 3.6 in, 85 mph"),
        (plain.METRIC, "2604 mm short of 86.4 to 91.4 mm, 38.0 m/s"),
    ],
)
def test_lengths_are_said_in_the_units_asked_for(units, said):
    """Source: inch and mile per hour as NIST SP 811 (2008), B.8 has them."""
    text = f"{plain.height(2.6035, units)} short of {plain.window(0.08636, 0.09144, units)}, {plain.speed(38.0, units)}"
    assert text == said
    facts = replace(SIZE, units=units)
    assert size(facts).count("mm") == (0 if units == plain.FEET else 4)
    assert (" in" in size(facts).replace("within", "")) is (units != plain.METRIC)
