"""The findings about one pair or kit, taken out of the arrays and put in plain words."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from pipeline.rules import sentences
from pipeline.rules.arrays import Catalogue, Finding, FindingLine, Fit, Floats, Kits, Posts, States
from pipeline.rules.fit import FUNCTIONS, Sentence
from pipeline.rules.sentences import Facts
from pipeline.rules.verdict import codes
from schemas.survey import BASES, CONDITIONS, FITTINGS, LINES, MATERIALS, SHAPES
from schemas.words import STATES

WORDS = {
    "shape": SHAPES,
    "line": LINES,
    "base": BASES,
    "fittings": FITTINGS,
    "condition": CONDITIONS,
    "material": MATERIALS,
}
"""The survey's words by the name of the array of posts."""


def pair_findings(posts: Posts, catalogue: Catalogue, fit: Fit, post: int, mount: int) -> tuple[FindingLine, ...]:
    """Every finding about post number `post` with mount number `mount`, in the order of words.FIT_CODES."""
    return tuple(_line(posts, catalogue, fit, f, post, mount) for f in fit.findings)


def kit_findings(posts: Posts, kits: Kits, kit: int) -> tuple[FindingLine, ...]:
    """BOARD, STRENGTH and FOOTING of kit number `kit`."""
    return tuple(_kit_lines(posts, kits, kit))


def _kit_lines(posts: Posts, kits: Kits, k: int) -> Iterator[FindingLine]:
    raised, load, post = codes(kits.confirm[k]), kits.load, kits.post[k]
    yield FindingLine("BOARD", "pass", sentences.board(Facts("pass")), math.nan, math.nan, math.nan, math.nan, "")
    worse = float(np.fmax(load["utilisation_play"][k], load["utilisation_storm"][k]))
    yield _made("STRENGTH", sentences.strength, raised, value=worse, most=1.0)
    needed, stated = float(load["footing_depth_needed"][k]), float(posts.footing_depth[post])
    yield _made("FOOTING", sentences.footing, raised, value=stated, least=needed, unit="m")


def _made(
    code: str,
    say: Sentence,
    raised: tuple[str, ...],
    value: float,
    least: float = math.nan,
    most: float = math.nan,
    unit: str = "",
) -> FindingLine:
    """A finding about a kit; `unknown` where there is nothing to hold against the limit: that is no pass."""
    margin = value - least if math.isnan(most) else most - value
    state = "confirm" if code in raised else "unknown" if math.isnan(margin) else "pass"
    return FindingLine(code, state, say(Facts(state, value, least, most)), value, least, most, margin, unit)


def _line(posts: Posts, catalogue: Catalogue, fit: Fit, f: Finding, i: int, m: int) -> FindingLine:
    state = STATES[int(_at(f.state, i, m))]
    value, least, most, margin = (float(_at(a, i, m)) for a in (f.value, f.least, f.most, f.margin))
    facts = replace(_facts(posts, catalogue, fit, i, m), state=state, value=value, least=least, most=most)
    return FindingLine(f.code, state, FUNCTIONS[f.code][1](facts), value, least, most, margin, f.unit)


def _at(array: Floats | States, i: int, m: int) -> float:
    """Element (i, m) of an array that may be broadcast along either axis."""
    rows, columns = array.shape
    return array[i if rows > 1 else 0, m if columns > 1 else 0]


def _facts(posts: Posts, catalogue: Catalogue, fit: Fit, i: int, m: int) -> Facts:
    """What may be said of post i with mount m."""
    extension = int(fit.extension[i, m])
    return Facts(
        "",
        post={name: words[getattr(posts, name)[i]] for name, words in WORDS.items()},
        takes=SHAPES[catalogue.mounts.shape[m]],
        extension=catalogue.extensions.code[extension] if extension >= 0 else "",
        size_uncertainty=float(posts.size_uncertainty[i]),
        size_estimated=bool(posts.size_estimated[i]),
        height_uncertainty=float(posts.height_uncertainty[i]),
        height_estimated=bool(posts.height_estimated[i]),
        target=float(posts.target[i]),
        added=float(fit.added[i, m]),
    )
