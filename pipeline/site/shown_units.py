"""In which units a site's lengths are shown."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pipeline.site.task import SiteTask
from schemas.survey import SURVEY


def shown_in_feet(task: SiteTask, policy: Mapping[str, Any]) -> bool:
    """Whether lengths are shown in feet and inches, as the policy's `show_units` asks.

    `survey`: as the site's rows mostly have them; on a tie, or where no unit is known, in feet and inches.
    """
    if policy["show_units"] != "survey":
        return bool(policy["show_units"] == "ft-in")
    rows = (*task.rows, *task.held)
    stated = [u for row in rows for n, u in row.units.items() if SURVEY.column(n).kind in ("length", "lengths", "pipe")]
    metric = sum(u in ("mm", "cm", "m") for u in stated)
    return 2 * metric <= len(stated)
