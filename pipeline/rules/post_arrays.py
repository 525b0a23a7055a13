"""Survey rows as arrays: what is not stated is taken from the policy, or stays NaN."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from pipeline.loads.load_arrays import UNREAD_EXPOSURE, UNREAD_SOIL
from pipeline.rules.arrays import CLEARED, NOT_ASKED, REFUSED, UNREADABLE, Bools, Catalogue, Floats, Ints, Policy, Posts
from pipeline.rules.plain import BOTH
from schemas.order import folded
from schemas.policy import HEIGHT_UNCERTAINTY, SIZE_UNCERTAINTY
from schemas.survey import BASES, CONDITIONS, EXPOSURES, FITTINGS, LINES, MATERIALS, SHAPES, SURVEY
from schemas.surveyed_post import SurveyedPost

NO_WISH, CANNOT_BE_MET = -1, -2

_DEFAULT = {c.name: c.default for c in SURVEY.columns}


def posts(values: Sequence[SurveyedPost], catalogue: Catalogue, policy: Policy) -> Posts:
    """The posts that the rules read, one for each of `values`, in their order.

    The customer's choice is `least price` until rules.choice.wanting sets another; sentences say lengths in both systems.
    Raises ValueError where a word is not one of its list.
    """
    wanted = _wanted(values, policy)
    size, height = _numbers(values, "post_size"), _numbers(values, "post_height")
    shape, base = _words(values, "post_shape", SHAPES), _words(values, "post_base", BASES)
    soil = np.array([int(_get(v, "soil_class", policy["soil_class"])) for v in values], dtype=np.int64)
    exposure = _words(values, "exposure", EXPOSURES, policy["exposure"])
    return Posts(
        shape=shape,
        shape_inferred=np.array([v.shape_inferred for v in values], dtype=bool),
        size=size,
        size_uncertainty=np.array([_size_uncertainty(v, policy) for v in values], dtype=np.float64),
        size_estimated=_estimated(values, "measured_with"),
        height=height,
        height_uncertainty=np.array([_height_uncertainty(v, policy) for v in values], dtype=np.float64),
        height_estimated=_estimated(values, "height_measured_with"),
        court_rise=_numbers(values, "court_rise", 0.0),
        clear_length=_unless_unread(values, "clear_length", _or(_numbers(values, "clear_length"), height)),
        line=_words(values, "post_line", LINES),
        base=base,
        lean=_unless_unread(values, "lean", _numbers(values, "lean", 0.0)),
        lean_shimmed=np.array([v.lean_shimmed == "yes" for v in values], dtype=bool),
        fittings=_words(values, "old_fittings", FITTINGS),
        condition=_words(values, "condition", CONDITIONS),
        wall=_numbers(values, "wall"),
        material=_words(values, "material", MATERIALS),
        wanted=wanted,
        target=np.nanmax(wanted, axis=1) if len(wanted) else np.zeros(0),
        least_board_width=_numbers(values, "least_board_width"),
        post_to_end_line=_numbers(values, "post_to_end_line"),
        footing_diameter=_footing(values, shape, base, size, policy),
        footing_stated=~np.isnan(_numbers(values, "footing_diameter")),
        footing_depth=_numbers(values, "footing_depth"),
        soil_class=np.where(_unread(values, "soil_class"), UNREAD_SOIL, soil),
        wind_speed=_unless_unread(values, "wind_speed", _numbers(values, "wind_speed", policy["wind_speed"])),
        exposure=np.where(_unread(values, "exposure"), UNREAD_EXPOSURE, exposure),
        cleared=np.array([_cleared(v) for v in values], dtype=np.int64),
        cleared_moment=np.where(_unread(values, "cleared_moment"), 0.0, _numbers(values, "cleared_moment")),
        unread_cells=np.array([[c in v.unread for c in UNREADABLE] for v in values], dtype=bool).reshape(-1, len(UNREADABLE)),
        mount_asked=_asked(values, "mount_asked", catalogue.mounts.code),
        board_asked=_asked(values, "board_asked", catalogue.boards.code),
        ring_asked=_asked(values, "ring_asked", catalogue.rings.code),
        choice=np.zeros(len(values), dtype=np.int64),
        customer_board=np.full(len(values), -1, dtype=np.int64),
        customer_ring=np.full(len(values), -1, dtype=np.int64),
        units=np.full(len(values), BOTH, dtype=np.int64),
    )


def _get(v: SurveyedPost, name: str, blank: Any) -> Any:
    value = getattr(v, name)
    return blank if value is None or value == "" else value


def _numbers(values: Sequence[SurveyedPost], name: str, blank: float = np.nan) -> Floats:
    # + 0.0 so that a negative zero is the same as zero
    return np.array([_get(v, name, blank) for v in values], dtype=np.float64) + 0.0


def _or(stated: Floats, other: Floats) -> Floats:
    return np.where(np.isnan(stated), other, stated)


def _word(v: SurveyedPost, name: str, blank: str | None = None) -> str:
    return str(_get(v, name, _DEFAULT[name] if blank is None else blank))


def _words(values: Sequence[SurveyedPost], name: str, words: Sequence[str], blank: str | None = None) -> Ints:
    return np.array([words.index(_word(v, name, blank)) for v in values], dtype=np.int64)


def _unread(values: Sequence[SurveyedPost], name: str) -> Bools:
    return np.array([name in v.unread for v in values], dtype=bool)


def _unless_unread(values: Sequence[SurveyedPost], name: str, read: Floats) -> Floats:
    """What was read, NaN where the cell could not be: it never takes a default."""
    return np.where(_unread(values, name), np.nan, read)


def tool(v: SurveyedPost, name: str) -> str:
    """How a measure was taken; as an estimate where that could not be read."""
    return "estimate" if name in v.unread else _word(v, name)


def _estimated(values: Sequence[SurveyedPost], name: str) -> Bools:
    return np.array([tool(v, name) == "estimate" for v in values], dtype=bool)


def _cleared(v: SurveyedPost) -> int:
    """What an engineer said; a yes without a name counts as nothing. Source: design section 7, load_state."""
    if v.strength_cleared == "no":
        return REFUSED
    return CLEARED if v.strength_cleared == "yes" and v.cleared_by else NOT_ASKED


def _wanted(values: Sequence[SurveyedPost], policy: Policy) -> Floats:
    lists = [sorted(_get(v, "ring_heights", ()) or policy["ring_height_wanted"]) for v in values]
    out = np.full((len(lists), max((len(w) for w in lists), default=1)), np.nan)
    for i, heights in enumerate(lists):
        out[i, : len(heights)] = heights
    return out


def _size_uncertainty(v: SurveyedPost, policy: Policy) -> float:
    """One bound on the size [m].

    Source: design section 3; a nominal size counts as a pipe mark (ASTM A53 tolerance, memory).
    """
    method = tool(v, "measured_with")
    if method != "estimate" and v.size_nominal:
        method = "pipe mark"
    bound = float(policy[SIZE_UNCERTAINTY[method]])
    relative = method in ("pipe mark", "drawing")
    return bound * float(_get(v, "post_size", math.nan)) if relative else bound


def _height_uncertainty(v: SurveyedPost, policy: Policy) -> float:
    """One bound on the height [m]; a stated court level is a second measurement.

    Source: design section 3.
    """
    bound = float(policy[HEIGHT_UNCERTAINTY[tool(v, "height_measured_with")]])
    stated = _get(v, "court_rise", None) is not None and "court_rise" not in v.not_stated
    return bound + float(policy["court_rise_uncertainty"]) if stated else bound


def _footing(values: Sequence[SurveyedPost], shape: Ints, base: Ints, size: Floats, policy: Policy) -> Floats:
    """Footing diameter [m]: of a driven post its own size, a square one's diagonal.

    Source: design section 7, footing; IBC 1807.3.2.1.
    """
    own = np.where(shape == SHAPES.index("square"), math.sqrt(2.0) * size, size)
    stated = _unless_unread(values, "footing_diameter", _numbers(values, "footing_diameter", policy["footing_diameter"]))
    return np.where(base == BASES.index("driven"), own, stated)


def _asked(values: Sequence[SurveyedPost], name: str, codes: Sequence[str]) -> Ints:
    at = {folded(code): i for i, code in enumerate(codes)}
    wishes = [folded(str(_get(v, name, ""))) for v in values]
    return np.array([at.get(w, CANNOT_BE_MET) if w else NO_WISH for w in wishes], dtype=np.int64)
