"""Which of the kits that fit are offered on a post's sheet."""

from __future__ import annotations

import numpy as np
import pytest

from pipeline.rules.rank import different


@pytest.mark.parametrize(
    ("width", "face", "most", "offered"),
    [
        ([1, 1, 2, 1, 3, 2, 4], [1, 1, 1, 1, 1, 1, 1], 10, [0, 2, 4, 6]),
        ([1, 1, 2, 1, 3, 2, 4], [1, 1, 1, 1, 1, 2, 1], 10, [0, 2, 4, 5, 6]),
        ([1, 1, 2, 1, 3, 2, 4], [1, 1, 1, 1, 1, 1, 1], 2, [0, 2]),
        ([1, 1, 1, 1, 1, 1], [1, 1, 1, 1, 1, 2], 10, [0, 1, 5]),
        ([7], [1], 10, [0]),
        ([1, 1], [1, 1], 1, [0]),
    ],
)
def test_different_things_are_offered_before_variants_of_the_same(width, face, most, offered):
    assert different(np.column_stack([width, face]), most).tolist() == offered
