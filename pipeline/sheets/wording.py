"""Plain words of the workbooks for the codes that results carry: verdicts, states, findings, who confirms."""

from __future__ import annotations

from pipeline.sheets.report import PostReport, SiteReport
from pipeline.sheets.show import counted, listed
from schemas.findings import BY_CODE, RULES

VERDICT: dict[str, tuple[str, str]] = {
    "viable": ("Fits", "text"),
    "viable_confirm": ("Fits if confirmed", "check"),
    "viable_extended": ("Fits with extension", "added"),
    "not_viable": ("Does not fit", "bad"),
    "no_kit": ("No kit fits", "bad"),
}
"""Short words and style of a verdict or an outcome; never green, since the load stands beside it."""

STATE: dict[str, tuple[str, str]] = {
    "ready": ("Ready", "good"),
    "to_confirm": ("To confirm", "check"),
    "incomplete": ("Incomplete", "bad"),
}
"""Short words and style of a site's state."""

KIND = {"goods": "Goods", "service": "Services", "freight": "Freight"}


def stops(codes: tuple[str, ...]) -> str:
    """Failed findings in words."""
    return ", ".join(BY_CODE[c].short for c in codes)


def abouts(codes: tuple[str, ...]) -> str:
    """Findings to confirm in words."""
    return ", ".join(BY_CODE[c].about for c in codes)


ENGINEER = frozenset(rule.code for rule in RULES if rule.engineer)
"""Findings that only a licensed engineer can clear: the strength, apart from the fit."""


def fit_open(post: PostReport) -> bool:
    """Whether the fit of a post's recommended kit waits for a confirmation."""
    return bool(post.kit and set(post.kit.confirm) - ENGINEER)


def strength_open(post: PostReport) -> bool:
    """Whether an engineer must look at a post with its recommended kit. Source: design section 8."""
    if not post.kit:
        return False
    cleared = post.row.strength_cleared == "yes" and bool(post.row.cleared_by)
    return bool(set(post.kit.confirm) & ENGINEER) or (post.kit.load_state != "within" and not cleared)


def state_words(report: SiteReport) -> str:
    """What a site waits for, and whom: rows, posts without a kit, fit and strength apart."""
    fit, strength = (sum(p.quantity for p in report.posts if is_open(p)) for is_open in (fit_open, strength_open))
    without = sum(p.quantity for p in report.posts if not p.kits)
    waits = [
        (report.rows_held, f"{counted(report.rows_held, 'row')} of the survey to be corrected by its sender"),
        (without, f"{counted(without, 'post')} that no kit fits, for the technical desk"),
        (fit, f"the fit at {counted(fit, 'post')} to be confirmed on site"),
        (strength, f"strength or footing at {counted(strength, 'post')} to be looked at by a licensed engineer"),
    ]
    parts = [words for count, words in waits if count]
    if parts:
        return f"Waits for: {'; '.join(parts)}."
    if report.state == "incomplete":
        return "A row that may be this site's names no site, or a file of it cannot be read: see the portfolio's Queries."
    return "Every post of the survey has a kit, and nothing waits."


def number(report: SiteReport) -> str:
    """The quotation's number, `SITE-r1`."""
    return f"{report.site_code}-r{report.revision}"


def posts_named(posts: list[PostReport], most: int = 12) -> str:
    """Posts by code in one phrase: `Post 3`, `Posts 1, 2 and 7 more`."""
    codes = [p.row.post_code for p in posts]
    return f"{'Post' if len(codes) == 1 else 'Posts'} {listed(codes, most)}"


def posts_words(report: SiteReport) -> str:
    """How many posts and rows the quotation covers."""
    quoted = sum(p.quantity for p in report.posts)
    served = sum(p.quantity for p in report.posts if p.kits)
    held = counted(report.rows_held, "row") + (" waits" if report.rows_held == 1 else " wait") + " for a correction"
    parts = [f"{counted(report.posts_in_all, 'post')} on the survey", f"{quoted:,} read and checked", f"{served:,} with a kit"]
    return "; ".join(parts + ([held] if report.rows_held else []))
