"""Survey rows as arrays: what is not stated is taken from the policy, or stays NaN."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from pipeline.rules.arrays import Bools, Catalogue, Floats, Ints, Policy, Posts
from schemas.order import folded
from schemas.policy import HEIGHT_UNCERTAINTY, SIZE_UNCERTAINTY
from schemas.survey import BASES, CONDITIONS, EXPOSURES, FITTINGS, LINES, MATERIALS, SHAPES, SURVEY
from schemas.surveyed_post import SurveyedPost

NO_WISH, CANNOT_BE_MET = -1, -2

_DEFAULT = {c.name: c.default for c in SURVEY.columns}


def posts(values: Sequence[SurveyedPost], catalogue: Catalogue, policy: Policy) -> Posts:
    """The posts that the rules read, one for each of `values`, in their order.

    The customer's choice is `least price` until rules.choice.wanting sets another.
    Raises ValueError where a word is not one of its list.
    """
    wanted = _wanted(values, policy)
    size, height = _numbers(values, "post_size"), _numbers(values, "post_height")
    shape, base = _words(values, "post_shape", SHAPES), _words(values, "post_base", BASES)
    return Posts(
        shape=shape,
        size=size,
        size_uncertainty=np.array([_size_uncertainty(v, policy) for v in values], dtype=np.float64),
        size_estimated=_is(values, "measured_with", "estimate"),
        height=height,
        height_uncertainty=np.array([_height_uncertainty(v, policy) for v in values], dtype=np.float64),
        height_estimated=_is(values, "height_measured_with", "estimate"),
        court_rise=_numbers(values, "court_rise", 0.0),
        clear_length=_or(_numbers(values, "clear_length"), height),
        line=_words(values, "post_line", LINES),
        base=base,
        lean=_numbers(values, "lean", 0.0),
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
        soil_class=np.array([int(_get(v, "soil_class", policy["soil_class"])) for v in values], dtype=np.int64),
        wind_speed=_numbers(values, "wind_speed", policy["wind_speed"]),
        exposure=_words(values, "exposure", EXPOSURES, policy["exposure"]),
        mount_asked=_asked(values, "mount_asked", catalogue.mounts.code),
        board_asked=_asked(values, "board_asked", catalogue.boards.code),
        ring_asked=_asked(values, "ring_asked", catalogue.rings.code),
        choice=np.zeros(len(values), dtype=np.int64),
        customer_board=np.full(len(values), -1, dtype=np.int64),
        customer_ring=np.full(len(values), -1, dtype=np.int64),
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


def _is(values: Sequence[SurveyedPost], name: str, word: str) -> Bools:
    return np.array([_word(v, name) == word for v in values], dtype=bool)


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
    method = _word(v, "measured_with")
    if method != "estimate" and v.size_nominal:
        method = "pipe mark"
    bound = float(policy[SIZE_UNCERTAINTY[method]])
    relative = method in ("pipe mark", "drawing")
    return bound * float(_get(v, "post_size", math.nan)) if relative else bound


def _height_uncertainty(v: SurveyedPost, policy: Policy) -> float:
    """One bound on the height [m]; a stated court level is a second measurement.

    Source: design section 3.
    """
    bound = float(policy[HEIGHT_UNCERTAINTY[_word(v, "height_measured_with")]])
    stated = _get(v, "court_rise", None) is not None and "court_rise" not in v.not_stated
    return bound + float(policy["court_rise_uncertainty"]) if stated else bound


def _footing(values: Sequence[SurveyedPost], shape: Ints, base: Ints, size: Floats, policy: Policy) -> Floats:
    """Footing diameter [m]: of a driven post its own size, a square one's diagonal.

    Source: design section 7, footing; IBC 1807.3.2.1.
    """
    own = np.where(shape == SHAPES.index("square"), math.sqrt(2.0) * size, size)
    stated = _numbers(values, "footing_diameter", policy["footing_diameter"])
    return np.where(base == BASES.index("driven"), own, stated)


def _asked(values: Sequence[SurveyedPost], name: str, codes: Sequence[str]) -> Ints:
    at = {folded(code): i for i, code in enumerate(codes)}
    wishes = [folded(str(_get(v, name, ""))) for v in values]
    return np.array([at.get(w, CANNOT_BE_MET) if w else NO_WISH for w in wishes], dtype=np.int64)
