"""What depends on all sites of a customer, decided between computing the sites and reporting on them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pipeline.site.task import Figures, SiteTask, World


def needs_others(task: SiteTask, world: World) -> bool:
    """Whether a site's quotation depends on the other sites of its customer."""
    return False


def decide(tasks: Sequence[SiteTask], figures: Mapping[str, Figures], world: World) -> dict[str, Mapping[str, Any]]:
    """What the quotation of each site takes from its customer's other sites, by folded site code; plain values.

    `tasks` are the sites that need others, in order, `figures` theirs. What is decided comes back as `SiteTask.decided`
    where the site is reported on, and is part of what its result is known by.
    """
    return {}
