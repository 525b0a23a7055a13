"""What depends on all sites of a customer, decided between computing the sites and reporting on them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from typing import Any

from pipeline.site import orders
from pipeline.site.decided import as_plain
from pipeline.site.task import Figures, SiteTask, World
from schemas.order import folded, natural


def needs_others(task: SiteTask, world: World) -> bool:
    """Whether a site's quotation depends on the other sites of its customer."""
    return orders.needs_others(task.customer, world)


def decide(tasks: Sequence[SiteTask], figures: Mapping[str, Figures], world: World) -> dict[str, Mapping[str, Any]]:
    """What the quotation of each site takes from its customer's other sites, by folded site code; plain values.

    `tasks` are the sites that need others, in order, `figures` theirs; a site that could not be computed has none, and
    counts for nothing. What is decided comes back as `SiteTask.decided` where the site is reported on, and is part of
    what its result is known by.
    """
    decided: dict[str, Mapping[str, Any]] = {}
    for customer in orders.customers_of(((t.site, t.customer) for t in tasks if figures.get(t.site)), world):
        want, shares = orders.shares(customer, figures, world)
        for site in customer.sites:
            decided[site] = as_plain(want, shares.get(site), world.catalogue)
    return decided


def moved_by(
    tasks: Sequence[SiteTask], changed: Set[str], gone: Sequence[tuple[str, str]], world: World
) -> dict[str, tuple[str, ...]]:
    """For each site, by folded code, the codes of its customer's other sites that have changed since the last finished run.

    `changed` are folded codes of sites that differ or are new, `gone` (site code, customer as stated) of those that were
    there then and are not any more.
    """
    codes = {t.site: t.site_code for t in tasks} | {folded(code): code for code, _ in gone}
    stated = [(t.site, t.customer) for t in tasks] + [(folded(code), customer) for code, customer in gone]
    moved = changed | {folded(code) for code, _ in gone}
    found: dict[str, tuple[str, ...]] = {}
    for customer in orders.customers_of(stated, world):
        here = sorted((codes[site] for site in customer.sites if site in moved), key=natural)
        found |= {site: tuple(code for code in here if code != codes[site]) for site in customer.sites}
    return found
