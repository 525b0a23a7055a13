"""What its customer needs to know of a site: the best kit of each post under each choice, and what one board could be.

`figures` is asked of each block of a site's rows where they are worked out, in a worker; `joined` puts a site's blocks
together. They are plain values, kept with the site's result, so that a site that has not changed need not be computed
again when its customer's other sites have. A kit is one number: see `kit_numbers`.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.rules.arrays import Catalogue, Ints
from pipeline.site.compute import Answer
from pipeline.site.task import Figures, World
from schemas.survey import FITTINGS


def figures(rows: Sequence[SurveyRow], first: int, answer: Answer, world: World) -> Figures:
    """The figures of some rows of one site; they are numbers `first` and following of `answer`.

    quantity, stripped: of each different post; best: its kit under each choice but one board, -1 without one;
    pair_post, pair_kit: its best kit for each board and ring among its leading kits; offers: [board, ring, posts,
    price], for each pair that kits which are not over offer: to how many posts, and the sum of the least unit prices.
    """
    group, place = np.unique(answer.group[first : first + len(rows)], return_inverse=True)
    quantity = np.bincount(place, weights=[row.quantity or 1 for row in rows], minlength=len(group)).astype(np.int64)
    kits, lead = kit_numbers(answer, world.catalogue), answer.leading
    pairs = lead.with_pair[np.isin(answer.kits.post[lead.with_pair], group)]
    best = lead.best[:, group]
    return {
        "quantity": quantity.tolist(),
        "stripped": (answer.posts.fittings[group] == FITTINGS.index("removable")).tolist(),
        "best": np.where(best >= 0, kits[best], -1).tolist() if len(kits) else best.tolist(),
        "pair_post": np.searchsorted(group, answer.kits.post[pairs]).tolist(),
        "pair_kit": kits[pairs].tolist(),
        "offers": _offers(answer, group, quantity),
    }


def _offers(answer: Answer, group: Ints, quantity: Ints) -> list[list[int]]:
    """Pairs of board and ring that the posts are offered, with the number of posts and the sum of least prices."""
    o = answer.offered
    here = np.flatnonzero(np.isin(o.post, group))
    many = quantity[np.searchsorted(group, o.post[here])]
    pair, place = np.unique(np.stack([o.board[here], o.ring[here]]), axis=1, return_inverse=True)
    posts, price = np.zeros(pair.shape[1], dtype=np.int64), np.zeros(pair.shape[1], dtype=np.int64)
    np.add.at(posts, place.reshape(-1), many)
    np.add.at(price, place.reshape(-1), many * o.price[here])
    return np.stack([*pair, posts, price], axis=1).tolist()


def joined(blocks: Sequence[Figures]) -> Figures:
    """The figures of a site whose rows were worked out in blocks; a post that stands in two of them counts in both."""
    if len(blocks) == 1:
        return blocks[0]
    out: dict[str, Any] = {"quantity": [], "stripped": [], "best": [[], [], []], "pair_post": [], "pair_kit": [], "offers": []}
    for f in blocks:
        before = len(out["quantity"])
        out["pair_post"] += [before + p for p in f["pair_post"]]
        out["best"] = [[*a, *b] for a, b in zip(out["best"], f["best"], strict=True)]
        for name in ("quantity", "stripped", "pair_kit", "offers"):
            out[name] += f[name]
    return out


def shape(catalogue: Catalogue) -> tuple[int, int, int, int]:
    """How many mounts, boards, rings and extensions (none included) there are to number kits by."""
    c = catalogue
    return len(c.mounts.code), len(c.boards.code), len(c.rings.code), len(c.extensions.code) + 1


def kit_numbers(answer: Answer, catalogue: Catalogue) -> Ints:
    """One number for each kit, from its places in the four tables, (k,)."""
    k = answer.kits
    return np.ravel_multi_index((k.mount, k.board, k.ring, k.extension + 1), shape(catalogue)).astype(np.int64)


def kit_items(numbers: Ints, catalogue: Catalogue) -> tuple[Ints, Ints, Ints, Ints]:
    """Mount, board, ring and extension (-1 none) of kits by number: the inverse of `kit_numbers`, each (k,)."""
    mount, board, ring, extension = np.unravel_index(numbers, shape(catalogue))
    return mount, board, ring, extension - 1
