"""Posts that are alike in everything that the computation reads are computed once."""

from __future__ import annotations

from dataclasses import fields

import numpy as np

from pipeline.rules.arrays import Ints, Posts


def distinct(posts: Posts) -> tuple[Ints, Ints]:
    """Index of the first post of each group of alike posts, (g,), and each post's group, (n,).

    Groups stand in the order in which they first occur, so `posts.take(first)` holds one of each and
    `take(first)[inverse]` all of them again. Not-known equals not-known.
    """
    if not len(posts):
        return np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64)
    columns = [np.asarray(getattr(posts, f.name), dtype=np.float64).reshape(len(posts), -1) for f in fields(posts)]
    table = np.hstack(columns)
    table[np.isnan(table)] = np.inf  # one spelling of not known; no value of a post is infinite
    rows = np.ascontiguousarray(table).view(np.dtype((np.void, table.shape[1] * table.itemsize)))[:, 0]
    _, first, group = np.unique(rows, return_index=True, return_inverse=True)
    order = np.argsort(first, kind="stable")
    place = np.empty_like(order)
    place[order] = np.arange(len(order))
    return first[order], place[group.reshape(-1)]
