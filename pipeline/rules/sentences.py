"""Each finding as a plain English sentence with its numbers."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from pipeline.rules import plain, word_rules
from pipeline.rules.plain import window
from schemas.lengths import ROUNDED

_NAN = math.nan


@dataclass(frozen=True)
class Facts(plain.InUnits):
    """What a sentence may say; lengths in m, NaN or '' where it does not apply.

    `post` has the survey's words of the post (shape, line, fittings, condition, base, material); `takes` is the shape
    that the mount takes, `extension` the code of the pair's extension; `target` the greatest wanted ring height; `cleared`
    whether a licensed engineer has cleared the kit, up to
    `cleared_moment` [N m]; `unread` the columns whose cell could not be read; `units` those in which lengths are said.
    """

    state: str
    value: float = _NAN
    least: float = _NAN
    most: float = _NAN
    post: Mapping[str, str] = field(default_factory=dict)
    takes: str = ""
    extension: str = ""
    size_uncertainty: float = 0.0
    size_estimated: bool = False
    height_uncertainty: float = 0.0
    height_estimated: bool = False
    target: float = _NAN
    added: float = 0.0
    shimmed: bool = False
    cleared: bool = False
    cleared_moment: float = _NAN
    unread: frozenset[str] = frozenset()
    units: int = plain.BOTH


def shape(f: Facts) -> str:
    """SHAPE."""
    if f.post["shape"] == "other":
        return f"The post is neither round nor square; the mount takes {f.takes} posts."
    if f.state == "confirm":
        return f"The post's shape is not stated; its size says that it is {f.post['shape']}, as the mount's posts are: confirm."
    if f.state == "pass":
        return f"The post is {f.post['shape']}, and the mount takes {f.takes} posts."
    return f"The post is {f.post['shape']}; the mount takes {f.takes} posts."


def tape(least: float, most: float, units: int = plain.BOTH) -> str:
    """The tape reading to look for round a post: pi x least to pi x most. Source: geometry."""
    return f"A tape round the post must read {window(math.pi * least, math.pi * most, units)}."


def size(f: Facts) -> str:
    """SIZE."""
    band = f"{f.size(f.value)}, give or take {f.size(f.size_uncertainty)}"
    look = tape(f.least, f.most, f.units) if f.post["shape"] != "square" else "Measure across two faces at right angles."
    limits = f"the mount's {f.window(f.least, f.most)}"
    again = f"Measure again: {look[0].lower()}{look[1:]}"
    if f.state == "pass":
        return f"The post measures {band}, within {limits}. {look}"
    if f.state == "confirm" and "measured_with" in f.unread:
        return f"The post is said to measure {f.size(f.value)}; how that was taken could not be read. {again}"
    if f.state == "confirm" and f.size_estimated:
        return f"The post is estimated at {band}; only part of that is within {limits}. Measure it: {look[0].lower()}{look[1:]}"
    if f.state == "confirm":
        return f"The post measures {band}; it is outside {limits}, but within reach of the measurement. {again}"
    return f"The post measures {band}, outside {limits} altogether. {look}"


def line(f: Facts) -> str:
    """LINE."""
    return word_rules.LINE[f.post["line"]][1]


def fittings(f: Facts) -> str:
    """FITTINGS."""
    return word_rules.FITTINGS[f.post["fittings"]][1]


def condition(f: Facts) -> str:
    """CONDITION."""
    return word_rules.CONDITION[f.post["condition"]][1]


def base(f: Facts) -> str:
    """BASE."""
    if "post_base" in f.unread:
        return "How the post stands in the ground could not be read: look and confirm."
    return word_rules.BASE[f.post["base"]][1]


def lean(f: Facts) -> str:
    """LEAN."""
    if math.isnan(f.value):
        return "How far the post leans could not be read: measure it."
    off = f"Across its diameter the ring would stand {f.size(f.value)} out of level"
    if f.state == "pass":
        return f"{off}, within {f.size(f.most)}" + (", and the lean is shimmed." if f.shimmed else ".")
    if f.state == "confirm":
        return f"{off}, above {f.size(f.most)}: shim the mount or straighten the post."
    return f"{off}: the post leans beyond the limit of {f.size(f.most)} that a shim may take up."


def clear(f: Facts) -> str:
    """CLEAR."""
    where = f"the upper tube of extension {f.extension}" if f.extension else "the post"
    need = f"The clamps need {f.at_least(f.value)} of straight, clear length from the top of {where} down"
    if f.state == "confirm" and f.extension:
        return f"{need}; how much of the post itself is clear for the joint could not be read: measure it."
    if f.state == "confirm":
        return f"{need}; how much there is, is not known: measure it."
    return f"{need}; there is {f.at_most(f.most)}." if f.state == "pass" else f"{need}; there is only {f.at_most(f.most)}."


def height(f: Facts) -> str:
    """HEIGHT."""
    how = f" with extension {f.extension} ({f.height(f.added)})" if f.extension else ""
    reach = f"The ring reaches {f.at_most(f.value)}{how}; {f.height(f.target)} is wanted"
    band = f"give or take {f.size(f.height_uncertainty)}"
    if f.state == "pass":
        return f"{reach}."
    if f.state == "fail":
        return f"{reach}: {f.at_least(f.target - f.value)} short, and no extension of the catalogue makes it up."
    if "height_measured_with" in f.unread:
        return f"{reach}; how the post's height was taken could not be read: measure it again."
    if f.height_estimated:
        return f"{reach}, but the post's height is only estimated, {band}: measure it."
    return f"{reach}: short by no more than the measurement's uncertainty, {band}. Measure the height again."


def joint(f: Facts) -> str:
    """JOINT."""
    if not f.extension:
        return "No extension is used."
    if math.isnan(f.least) and math.isnan(f.most) and f.state == "pass":
        return f"Extension {f.extension} goes on the post."
    bore = f"a bore of {f.window(f.least, f.most)}" if not math.isnan(f.least + f.most) else "a bore that suits it"
    if f.state == "confirm":
        return f"Extension {f.extension} enters {bore}, and the post's wall is not stated: measure the bore."
    return f"Extension {f.extension} enters {bore}; the post's is {f.size(f.value)}."


def board(f: Facts) -> str:
    """BOARD."""
    if f.state == "confirm":
        return "How wide the board must at least be could not be read: confirm that this one is wide enough."
    if f.state == "pass":
        return "Mount, board and ring may be sold together, and the mount carries them."
    return "No board of the catalogue is paired with the mount, light and narrow enough for it and as wide as asked for."


def strength(f: Facts) -> str:
    """STRENGTH."""
    if "strength_cleared" in f.unread:
        return "What is said of the strength on the survey could not be read; a licensed engineer must look at it."
    if math.isinf(f.value):
        lead = "The post is too slender for this screen"
    elif math.isnan(f.value):
        lead = "The post's strength is not known"
    else:
        share = math.ceil(f.value * 100) if f.value > 1 else round(f.value * 100)
        lead = f"The rough load is {share} % of the post's rough strength"
    if f.cleared:
        return f"{lead}; {_cleared(f)}"
    if f.state == "confirm":
        return f"{lead}: only a licensed engineer can clear it."
    return f"{lead}; " + ("a licensed engineer must look at it." if f.state == "unknown" else "this is a screen and no design.")


def _cleared(f: Facts) -> str:
    upto = "any kit" if math.isnan(f.cleared_moment) else f"moments at the ground up to {f.cleared_moment:.0f} N m"
    return f"a licensed engineer has cleared it for {upto}, as the survey says."


def footing(f: Facts) -> str:
    """FOOTING."""
    if not math.isnan(f.least):
        deep = f.at_least(f.least + 2 * ROUNDED)  # computed, and so never a whole number of sixteenths
        lead = f"The screen asks for a footing {deep} deep, and never less than the local frost depth"
    elif f.post["base"] == "base plate":
        lead = "No footing depth is given: the anchors of a base plate are for an engineer"
    else:
        lead = "No footing depth can be given, since what it hangs on could not be read"
    if f.cleared:
        return f"{lead}; {_cleared(f)}"
    stated = f"{f.height(f.value)} is stated" if not math.isnan(f.value) else "how deep it is, is not known"
    return f"{lead}; {stated}" + (": have it looked at." if f.state == "confirm" else ".")
