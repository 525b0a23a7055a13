"""Each finding as a plain English sentence with its numbers, and where each rule comes from."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from pipeline.rules.plain import height, size, window

_NAN = math.nan


@dataclass(frozen=True)
class Facts:
    """What a sentence may say; lengths in m, NaN or '' where it does not apply.

    `word` is what the survey says of the post, `against` what it is held against (the mount's shape,
    an extension's code); `target` is the greatest wanted ring height.
    """

    state: str
    value: float = _NAN
    least: float = _NAN
    most: float = _NAN
    word: str = ""
    against: str = ""
    uncertainty: float = 0.0
    estimated: bool = False
    target: float = _NAN
    added: float = 0.0


def sentence(code: str, facts: Facts) -> str:
    """The sentence of finding `code`; KeyError where there is no such finding."""
    return SENTENCES[code](facts)


def _shape(f: Facts) -> str:
    if f.word == "other":
        return f"The post is neither round nor square; the mount takes {f.against} posts."
    if f.state == "pass":
        return f"The post is {f.word}, and the mount takes {f.against} posts."
    return f"The post is {f.word}; the mount takes {f.against} posts."


def tape(least: float, most: float) -> str:
    """The tape reading to look for round a post: pi x least to pi x most. Source: geometry."""
    return f"A tape round the post must read {window(math.pi * least, math.pi * most)}."


def _size(f: Facts) -> str:
    band = f"{size(f.value)}, give or take {size(f.uncertainty)}"
    look = tape(f.least, f.most) if f.word != "square" else "Measure across two faces at right angles."
    limits = f"the mount's {window(f.least, f.most)}"
    if f.state == "pass":
        return f"The post measures {band}, within {limits}. {look}"
    if f.state == "confirm" and f.estimated:
        return f"The post is estimated at {band}; only part of that is within {limits}. Measure it: {look[0].lower()}{look[1:]}"
    again = f"Measure again: {look[0].lower()}{look[1:]}"
    if f.state == "confirm":
        return f"The post measures {band}; it is outside {limits}, but within reach of the measurement. {again}"
    return f"The post measures {band}, outside {limits} altogether. {look}"


_LINE = {
    "straight": "The post is straight.",
    "tapered": "The post tapers: confirm that the clamps seat on it where they go.",
    "unknown": "Whether the post is straight is not known: look along it and confirm.",
    "gooseneck": "The post is a gooseneck; the clamps need a straight post up to its top.",
    "bent": "The post is bent; the clamps need a straight post up to its top.",
}

_FITTINGS = {
    "none": "Nothing hangs on the post.",
    "removable": "The old fittings come off; stripping the post is added.",
    "unknown": "Whether old fittings are welded on is not known: look and confirm.",
    "fixed": "Old fittings are fixed to the post, where the clamps may have to go.",
}

_CONDITION = {
    "sound": "The post is sound.",
    "surface rust": "The post has surface rust only.",
    "unknown": "The post's condition is not known: look at the ground line and under collars before anything is ordered.",
    "corroded": "The post is corroded; nothing may be hung on it.",
    "cracked": "The post is cracked; nothing may be hung on it.",
    "loose": "The post is loose in the ground; nothing may be hung on it as it stands.",
}

_BASE = {
    "cast in": "The post is cast in.",
    "ground sleeve": "The post stands in a ground sleeve.",
    "driven": "The post is driven; its own size counts as the footing's diameter.",
    "unknown": "How the post stands is not known; concrete of the policy's diameter is assumed.",
    "base plate": "The post stands on a base plate: its anchors are for an engineer, and no footing depth is given.",
    "portable": "The post is portable; a mount needs a post set in the ground.",
}


def _lean(f: Facts) -> str:
    off = f"Across its diameter the ring would stand {size(f.value)} out of level"
    if f.state == "pass":
        return f"{off}, within {size(f.most)}."
    if f.state == "confirm":
        return f"{off}, above {size(f.most)}: shim the mount or straighten the post."
    return f"{off}: the post leans beyond the limit of {size(f.most)} that a shim may take up."


def _clear(f: Facts) -> str:
    where = f"the upper tube of extension {f.against}" if f.against else "the post"
    need = f"The clamps need {height(f.value, up=True)} of straight, clear length from the top of {where} down"
    if f.state == "confirm":
        return f"{need}; how much there is, is not known: measure it."
    return f"{need}; there is {height(f.most)}." if f.state == "pass" else f"{need}; there is only {height(f.most)}."


def _height(f: Facts) -> str:
    how = f" with extension {f.against} ({height(f.added)})" if f.against else ""
    reach = f"The ring reaches {height(f.value)}{how}; {height(f.target)} is wanted"
    band = f"give or take {size(f.uncertainty)}"
    if f.state == "pass":
        return f"{reach}."
    if f.state == "fail":
        return f"{reach}: {height(f.target - f.value, up=True)} short, and no extension of the catalogue makes it up."
    if f.estimated:
        return f"{reach}, but the post's height is only estimated, {band}: measure it."
    return f"{reach}: short by no more than the measurement's uncertainty, {band}. Measure the height again."


def _joint(f: Facts) -> str:
    if not f.against:
        return "No extension is used."
    if math.isnan(f.least) and math.isnan(f.most) and f.state == "pass":
        return f"Extension {f.against} goes on the post."
    bore = f"a bore of {window(f.least, f.most)}" if not math.isnan(f.least + f.most) else "a bore that suits it"
    if f.state == "confirm":
        return f"Extension {f.against} enters {bore}, and the post's wall is not stated: measure the bore."
    return f"Extension {f.against} enters {bore}; the post's is {size(f.value)}."


def _board(f: Facts) -> str:
    if f.state == "pass":
        return "Mount, board and ring may be sold together, and the mount carries them."
    return "No board of the catalogue is paired with the mount, light and narrow enough for it and as wide as asked for."


def _strength(f: Facts) -> str:
    if math.isinf(f.value):
        return "The post is too slender for this screen: only a licensed engineer can clear it."
    if math.isnan(f.value):
        return "The post's strength is not known; a licensed engineer must look at it."
    share = math.ceil(f.value * 100) if f.state == "confirm" else round(f.value * 100)
    end = ": only a licensed engineer can clear it." if f.state == "confirm" else "; this is a screen and no design."
    return f"The rough load is {share} % of the post's rough strength{end}"


def _footing(f: Facts) -> str:
    if math.isnan(f.least):
        return "No footing depth is given: the anchors of a base plate are for an engineer."
    need = f"The screen asks for a footing {height(f.least, up=True)} deep, and never less than the local frost depth"
    if math.isnan(f.value):
        return f"{need}; the footing's depth is not stated."
    return f"{need}; {height(f.value)} is stated" + (": have it looked at." if f.state == "confirm" else ".")


SENTENCES: dict[str, Callable[[Facts], str]] = {
    "SHAPE": _shape,
    "SIZE": _size,
    "LINE": lambda f: _LINE[f.word],
    "LEAN": _lean,
    "FITTINGS": lambda f: _FITTINGS[f.word],
    "CONDITION": lambda f: _CONDITION[f.word],
    "BASE": lambda f: _BASE[f.word],
    "CLEAR": _clear,
    "HEIGHT": _height,
    "JOINT": _joint,
    "BOARD": _board,
    "STRENGTH": _strength,
    "FOOTING": _footing,
}

SOURCES: dict[str, str] = {
    "SHAPE": "common practice: a mount is made for round or for square posts",
    "SIZE": "the catalogue's window of sizes; nominal pipe sizes by ASME B36.10M",
    "LINE": "common practice: clamps need a straight post",
    "LEAN": "house limit on a ring out of level over FIBA's 450 mm ring (memory); house limit on lean",
    "FITTINGS": "common practice: clamps need a bare post",
    "CONDITION": "common practice: nothing is hung on a corroded, cracked or loose post",
    "BASE": "common practice; anchors of a base plate are an engineer's matter",
    "CLEAR": "the catalogue's clamp length and the survey's clear straight length",
    "HEIGHT": "FIBA and NFHS ring height 10 ft (3.05 m) unless another is wanted; tolerance FIBA +-6 mm (memory)",
    "JOINT": "the catalogue's bore window; bore = outside size less two walls",
    "BOARD": "the catalogue's pairings, ring patterns and limits of the mount; the survey's least board width",
    "STRENGTH": "AISC 360-16 ASD with published loads, as a screen; no standard covers a new board on an old post",
    "FOOTING": "IBC 1807.3.2.1 (not constrained), as a screen",
}
"""Where the rule behind each finding code comes from."""
