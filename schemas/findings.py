"""What each rule asks, in the words that every reader sees: one row a rule, in the order in which files list them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class RuleWords:
    """One rule: its code, and what workbooks, remedies and `explain` say of it.

    `about` is what it looks at, `short` what a failure says of a post in two or three words; `passes`, `confirms` and
    `fails` are what each answer means ('' = it never answers so); `confirmed_by` who can confirm it, `engineer` whether
    that must be a licensed engineer; `column` the column of the survey where the answer is typed.
    """

    code: str
    about: str
    short: str
    passes: str
    confirms: str
    fails: str
    source: str
    confirmed_by: str
    column: str
    engineer: bool = False


FIT_RULES: tuple[RuleWords, ...] = (
    RuleWords(
        "SHAPE", "shape of the post", "shape",
        passes="post and mount of one shape",
        confirms="the same, where the shape was taken from what the size says",
        fails="shapes differ, or neither round nor square",
        source="common practice: a mount is made for round or for square posts",
        confirmed_by="whoever measures the post", column="post_shape",
    ),
    RuleWords(
        "SIZE", "size of the post", "size",
        passes="outside size within the mount's window; an estimate with its whole band",
        confirms="outside by no more than the size's bound; an estimate that only partly fits; or how it was measured could not be read",
        fails="outside by more",
        source="the catalogue's window of sizes; nominal pipe sizes by ASME B36.10M",
        confirmed_by="whoever measures the post, with calipers where the clamps go", column="post_size",
    ),
    RuleWords(
        "LINE", "straightness of the post", "not straight",
        passes="straight",
        confirms="unknown or tapered",
        fails="gooseneck or bent",
        source="common practice: clamps need a straight post",
        confirmed_by="whoever measures the post", column="post_line",
    ),
    RuleWords(
        "LEAN", "lean of the post", "leans too far",
        passes="ring level across its 0.450 m within ring_level_tolerance; or shimmed, up to lean_limit",
        confirms="up to lean_limit: shim or straighten; or the lean could not be read",
        fails="beyond lean_limit",
        source="house limit on a ring out of level over FIBA's 450 mm ring (memory); house limit on lean",
        confirmed_by="the installer, with a level", column="lean_shimmed",
    ),
    RuleWords(
        "FITTINGS", "old fittings", "fixed old fittings",
        passes="none, or removable (stripping is charged)",
        confirms="unknown",
        fails="fixed",
        source="common practice: clamps need a bare post",
        confirmed_by="whoever looks at the post", column="old_fittings",
    ),
    RuleWords(
        "CONDITION", "condition of the post", "unsound post",
        passes="sound, or surface rust",
        confirms="unknown: old posts fail at the ground line, look before ordering",
        fails="corroded, cracked or loose",
        source="common practice: nothing is hung on a corroded, cracked or loose post",
        confirmed_by="whoever looks at the post", column="condition",
    ),
    RuleWords(
        "BASE", "base and anchors", "portable base",
        passes="cast in, ground sleeve, driven, or not stated (said)",
        confirms="base plate: anchors are for an engineer; or the base could not be read",
        fails="portable",
        source="common practice; anchors of a base plate are an engineer's matter",
        confirmed_by="a licensed engineer", column="post_base", engineer=True,
    ),
    RuleWords(
        "CLEAR", "clear straight length", "too little clear post",
        passes="clamps lie within the straight clear length",
        confirms="the clear straight length could not be read",
        fails="clamps need more",
        source="the catalogue's clamp length and the survey's clear straight length",
        confirmed_by="whoever measures the post", column="clear_length",
    ),
    RuleWords(
        "HEIGHT", "height of the post", "too short",
        passes="greatest ring height reaches the target within ring_height_tolerance",
        confirms="short by no more than the height's bound; an estimate that only partly reaches; or how it was measured could not be read",
        fails="short by more: an extension is needed",
        source="FIBA and NFHS ring height 10 ft (3.05 m) unless another is wanted; tolerance FIBA +-6 mm (memory)",
        confirmed_by="whoever measures the post, with a tape or a laser", column="post_height",
    ),
    RuleWords(
        "JOINT", "bore of the post for the spigot", "spigot does not enter",
        passes="no extension, a sleeve, or a spigot that enters the bore",
        confirms="a spigot, and the wall is not stated",
        fails="that extension is not offered",
        source="the catalogue's bore window; bore = outside size less two walls",
        confirmed_by="whoever measures the post: wall or bore at the top", column="wall",
    ),
)  # fmt: skip
"""Rules about a post with a mount; a new one is a row here and a row in `rules/fit.FUNCTIONS`."""

KIT_RULES: tuple[RuleWords, ...] = (
    RuleWords(
        "BOARD", "board against mount", "no board goes with it",
        passes="no wider and no heavier than the mount allows, no narrower than asked for",
        confirms="the least board width could not be read",
        fails="wider, heavier or narrower",
        source="the catalogue's pairings, ring patterns and limits of the mount; the survey's least board width",
        confirmed_by="whoever sent the survey", column="least_board_width",
    ),
    RuleWords(
        "STRENGTH", "strength of the post", "refused by an engineer",
        passes="no overload seen by the screen, strength not known (said), or cleared by a licensed engineer",
        confirms="over: only a licensed engineer can clear it",
        fails="a licensed engineer has refused it",
        source="AISC 360-16 ASD with published loads (ASCE 7-16; EN 1270, memory), as a screen; no standard covers a new board on an old post",
        confirmed_by="a licensed engineer, and nobody else", column="strength_cleared", engineer=True,
    ),
    RuleWords(
        "FOOTING", "depth of the footing", "footing",
        passes="the stated footing is deep enough, or cleared by a licensed engineer",
        confirms="the stated depth is less than the formula asks for; or depth or diameter is not known, so that nobody knows what holds the post",
        fails="",
        source="IBC 1807.3.2.1 (not constrained), as a screen",
        confirmed_by="a licensed engineer", column="footing_depth", engineer=True,
    ),
)  # fmt: skip
"""Rules about a kit on a post."""

RULES: tuple[RuleWords, ...] = FIT_RULES + KIT_RULES
BY_CODE: dict[str, RuleWords] = {r.code: r for r in RULES}
