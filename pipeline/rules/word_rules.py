"""Rules that look up a word of the survey: what each word means, and what is said of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from pipeline.rules.arrays import CONFIRM, FAIL, PASS, Ints, States

Words = Mapping[str, tuple[int, str]]
"""Answer and sentence of each word of a survey's list."""

LINE: Words = {
    "straight": (PASS, "The post is straight."),
    "tapered": (CONFIRM, "The post tapers: confirm that the clamps seat on it where they go."),
    "gooseneck": (FAIL, "The post is a gooseneck; the clamps need a straight post up to its top."),
    "bent": (FAIL, "The post is bent; the clamps need a straight post up to its top."),
    "unknown": (CONFIRM, "Whether the post is straight is not known: look along it and confirm."),
}

FITTINGS: Words = {
    "none": (PASS, "Nothing hangs on the post."),
    "removable": (PASS, "The old fittings come off; stripping the post is added."),
    "fixed": (FAIL, "Old fittings are fixed to the post, where the clamps may have to go."),
    "unknown": (CONFIRM, "Whether old fittings are welded on is not known: look and confirm."),
}

CONDITION: Words = {
    "sound": (PASS, "The post is sound."),
    "surface rust": (PASS, "The post has surface rust only."),
    "corroded": (FAIL, "The post is corroded; nothing may be hung on it."),
    "cracked": (FAIL, "The post is cracked; nothing may be hung on it."),
    "loose": (FAIL, "The post is loose in the ground; nothing may be hung on it as it stands."),
    "unknown": (
        CONFIRM,
        "The post's condition is not known: look at the ground line and under collars before anything is ordered.",
    ),
}

BASE: Words = {
    "cast in": (PASS, "The post is cast in."),
    "ground sleeve": (PASS, "The post stands in a ground sleeve."),
    "driven": (PASS, "The post is driven; its own size counts as the footing's diameter."),
    "base plate": (CONFIRM, "The post stands on a base plate: its anchors are for an engineer, and no footing depth is given."),
    "portable": (FAIL, "The post is portable; a mount needs a post set in the ground."),
    "unknown": (PASS, "How the post stands is not known; concrete of the policy's diameter is assumed."),
}


def by_word(words: Words, listed: Sequence[str], index: Ints) -> States:
    """Answers (n, 1) to the words of the survey's list at `index` (n,)."""
    return np.array([words[word][0] for word in listed], dtype=np.int8)[index][:, None]
