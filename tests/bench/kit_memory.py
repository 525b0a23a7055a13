"""Memory of the kit stage: kit_memory.py CATALOGUE POSTS prints how many MB it holds at most beside what was loaded before."""

from __future__ import annotations

import json
import random
import resource
import sys
import time
from typing import Any

BATCH = 96


def row(i: int, rng: random.Random) -> Any:
    from pipeline.intake.survey.survey_row import SurveyRow

    return SurveyRow(file="f", sheet="s", row=i, label=f"row {i}", held=False, site_code="G", post_code=f"P{i}", **values(rng))


def values(rng: random.Random) -> dict[str, Any]:
    """A post unlike any other."""
    return {
        "post_shape": "round", "post_size": rng.choice((0.0603, 0.0889, 0.1016, 0.1143)), "quantity": 1,
        "measured_with": "calipers", "height_measured_with": "tape", "size_basis": "outside diameter",
        "post_height": 2.4 + rng.random(), "court_rise": 0.0, "lean": 0.0, "post_line": "straight", "post_base": "cast in",
        "old_fittings": "none", "condition": "sound", "material": "steel", "wall": 0.0055, "ring_heights": (3.048, 2.438),
        "not_stated": (),
    }  # fmt: skip


def main(catalogue: str, posts: str) -> None:
    """Works the posts out in batches, as a run does, and keeps nothing."""
    from pipeline.intake.catalogue import read_catalogue
    from pipeline.rules.catalogue_arrays import catalogue as arrays
    from pipeline.site.compute import work_out

    read = read_catalogue(catalogue)
    made, rng = arrays(read.tables), random.Random(3)
    rows = [row(i, rng) for i in range(BATCH)]
    work_out(rows[:1], made, read.policy)
    before, start, kits = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, time.process_time(), 0
    for first in range(0, int(posts), BATCH):
        rows = [row(i, rng) for i in range(first, first + BATCH)]
        kits += len(work_out(rows, made, read.policy).kits.post)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    print(json.dumps({"MB": (peak - before) / 1024, "seconds": time.process_time() - start, "kits": kits}))


if __name__ == "__main__":
    main(*sys.argv[1:])
