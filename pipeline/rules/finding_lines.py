"""The findings about one pair or kit, taken out of the arrays and put in plain words."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from pipeline.rules import sentences
from pipeline.rules.arrays import UNREADABLE, Catalogue, Finding, FindingLine, Fit, Floats, Kits, Posts, States
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
    facts = _facts(posts, catalogue, fit, post, mount)
    return tuple(_line(facts, f, post, mount) for f in fit.findings)


def kit_findings(posts: Posts, kits: Kits, kit: int) -> tuple[FindingLine, ...]:
    """BOARD, STRENGTH and FOOTING of kit number `kit`."""
    return tuple(_kit_lines(posts, kits, kit))


def _kit_lines(posts: Posts, kits: Kits, k: int) -> Iterator[FindingLine]:
    load, post = kits.load, int(kits.post[k])
    facts = replace(_post_facts(posts, post), cleared=bool(kits.cleared[k]))
    nothing = replace(facts, value=0.0, most=0.0)
    worse = float(np.fmax(load["utilisation_play"][k], load["utilisation_storm"][k]))
    needed, stated = float(load["footing_depth_needed"][k]), float(posts.footing_depth[post])
    raised = codes(kits.confirm[k])
    yield _made("BOARD", sentences.board, raised, nothing)
    yield _made("STRENGTH", sentences.strength, raised, replace(facts, value=worse, most=1.0))
    yield _made("FOOTING", sentences.footing, raised, replace(facts, value=stated, least=needed), "m")


def _made(code: str, say: Sentence, raised: tuple[str, ...], facts: Facts, unit: str = "") -> FindingLine:
    """A finding about a kit; `unknown` where there is nothing to hold against the limit: that is no pass."""
    value, least, most = facts.value, facts.least, facts.most
    margin = value - least if math.isnan(most) else most - value
    sure = facts.cleared or not math.isnan(margin)
    state = "confirm" if code in raised else "pass" if sure else "unknown"
    sentence = say(replace(facts, state=state))
    numbers = (math.nan,) * 4 if code == "BOARD" else (value, least, most, margin)
    return FindingLine(code, state, sentence, *numbers, unit)


def _line(about: Facts, f: Finding, i: int, m: int) -> FindingLine:
    state = STATES[int(_at(f.state, i, m))]
    value, least, most, margin = (float(_at(a, i, m)) for a in (f.value, f.least, f.most, f.margin))
    facts = replace(about, state=state, value=value, least=least, most=most)
    return FindingLine(f.code, state, FUNCTIONS[f.code][1](facts), value, least, most, margin, f.unit)


def _at(array: Floats | States, i: int, m: int) -> float:
    """Element (i, m) of an array that may be broadcast along either axis."""
    rows, columns = array.shape
    return array[i % rows, m % columns]


def _facts(posts: Posts, catalogue: Catalogue, fit: Fit, i: int, m: int) -> Facts:
    """What may be said of post i with mount m."""
    extension = int(fit.extension[i, m])
    return replace(
        _post_facts(posts, i),
        takes=SHAPES[catalogue.mounts.shape[m]],
        extension=catalogue.extensions.code[extension] if extension >= 0 else "",
        added=float(fit.added[i, m]),
    )


def _post_facts(posts: Posts, i: int) -> Facts:
    """What may be said of post i."""
    return Facts(
        "",
        post={name: words[getattr(posts, name)[i]] for name, words in WORDS.items()},
        size_uncertainty=float(posts.size_uncertainty[i]),
        size_estimated=bool(posts.size_estimated[i]),
        height_uncertainty=float(posts.height_uncertainty[i]),
        height_estimated=bool(posts.height_estimated[i]),
        target=float(posts.target[i]),
        shimmed=bool(posts.lean_shimmed[i]),
        cleared_moment=float(posts.cleared_moment[i]),
        units=int(posts.units[i]),
        unread=frozenset(name for name, unread in zip(UNREADABLE, posts.unread_cells[i], strict=True) if unread),
    )
