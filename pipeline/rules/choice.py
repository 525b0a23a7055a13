"""What a customer wants of several kits that fit: the best kit of each post under each choice, and what one board could be.

Over last, fewest items other than asked for, more heights and verdict go before every choice, so the kits that are
equal in these, the post's leading kits, are all that a choice is made among.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from pipeline.loads.load_arrays import OVER
from pipeline.rules.arrays import Bools, Catalogue, Ints, Kits, Posts
from pipeline.rules.rank import codes_in_order, differing, fixed_keys
from schemas.catalogue import CHOICES

LEAST_PRICE, WIDEST_BOARD, MOST_HEIGHTS, ONE_BOARD = range(len(CHOICES))


@dataclass(frozen=True)
class Want:
    """A customer's choice, with the board and ring of `one board` as indexes among the active ones, -1 none."""

    choice: int = LEAST_PRICE
    board: int = -1
    ring: int = -1


def wanting(posts: Posts, wants: Sequence[Want]) -> Posts:
    """The posts with what each one's customer wants; one Want for each post."""
    table = np.array([(w.choice, w.board, w.ring) for w in wants], dtype=np.int64).reshape(-1, 3)
    return replace(posts, choice=table[:, 0], customer_board=table[:, 1], customer_ring=table[:, 2])


@dataclass(frozen=True, eq=False, repr=False)
class Leading:
    """The best kits of n posts under each choice, as numbers of kits.

    `best` (3, n): under each choice but `one board`, -1 without a kit. `with_pair` (p,): for each post and each
    board and ring among its leading kits, the best one with them, by post.
    """

    best: Ints
    with_pair: Ints


def leading(posts: Posts, catalogue: Catalogue, kits: Kits) -> Leading:
    """The best kits of each post. Source: design section 8, choice and options."""
    at = np.flatnonzero(_leads(posts, kits))
    post, mount, board, ring = (getattr(kits, n)[at] for n in ("post", "mount", "board", "ring"))
    least = (kits.price[at], *codes_in_order(catalogue, mount, board, ring))
    best = np.full((3, len(posts)), -1, dtype=np.int64)
    for choice, own in enumerate((np.zeros_like(at), *fixed_keys(catalogue, mount, board))):
        order = np.lexsort((*least[::-1], own, post))
        first = order[_starts(post[order])]
        best[choice, post[first]] = at[first]
    order = np.lexsort((*least[::-1], ring, board, post))
    first = order[_starts(post[order], board[order], ring[order])]
    return Leading(best, at[first])


def _leads(posts: Posts, kits: Kits) -> Bools:
    """Whether a kit is equal to its post's first in all that goes before a choice, (k,)."""
    starts = np.flatnonzero(_starts(kits.post))
    first = np.repeat(starts, np.diff(np.r_[starts, len(kits.post)]))
    wishes = differing(posts, kits.post, kits.mount, kits.board, kits.ring)
    keys = (_over(kits), wishes, kits.covered, kits.verdict)
    return np.all([key == key[first] for key in keys], axis=0)


def _over(kits: Kits) -> Bools:
    return kits.load["load_state"] == OVER


def _starts(*columns: Ints) -> Bools:
    """Whether each row of sorted columns differs from the row before, (k,)."""
    if not len(columns[0]):
        return np.zeros(0, dtype=bool)
    return np.r_[True, np.any([c[1:] != c[:-1] for c in columns], axis=0)]


@dataclass(frozen=True, eq=False, repr=False)
class Offered:
    """Boards with rings that kits which are not over offer, by post; each array (p,)."""

    post: Ints
    board: Ints
    ring: Ints
    price: Ints  # least unit price with them there, in Catalogue.price_unit


def offered(kits: Kits) -> Offered:
    """Each pair of board and ring that some kit of a post offers which is not over. Source: design section 8, one board."""
    at = np.flatnonzero(~_over(kits))
    columns = [getattr(kits, n)[at] for n in ("post", "board", "ring")]
    order = np.lexsort((kits.price[at], *columns[::-1]))
    columns = [c[order] for c in columns]
    first = _starts(*columns)
    return Offered(*(c[first] for c in (*columns, kits.price[at][order])))
