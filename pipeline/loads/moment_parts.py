"""Where the moment at the ground comes from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from pipeline.loads.cases import hang_case, push_case, terms
from pipeline.loads.constants import STORM_FACTOR
from pipeline.loads.load_arrays import LoadInputs, MomentParts


def parts(k: LoadInputs, policy: Mapping[str, Any]) -> MomentParts:
    """Parts of the first-order moment at the ground, each (k,) [N m].

    k: the kits (k,); policy: SI settings. dead + (hang or push) + lean_play + the winds of play is moment_play;
    dead + lean_storm + the winds of storm is moment_storm. `lean_play` goes with the greater of hang and push.
    Range: as `screen`.
    Source: the functions called.
    """
    t = terms(k, policy)
    is_hang = hang_case(k, t, policy).moment >= push_case(k, t, policy).moment
    return MomentParts(
        dead=t.dead,
        hang=t.hang,
        push=t.push,
        lean_play=np.where(is_hang, t.lean_hang, t.lean),
        lean_storm=t.lean,
        board_wind_play=t.play.board_moment,
        post_wind_play=t.play.post_moment,
        board_wind_storm=STORM_FACTOR * t.storm.board_moment,
        post_wind_storm=STORM_FACTOR * t.storm.post_moment,
        play_is_hang=is_hang,
    )
