"""Plain words of the workbooks for the codes that results carry: verdicts, states, findings, who confirms."""

from __future__ import annotations

from pipeline.sheets.report import KitReport, PostReport, SiteReport
from pipeline.sheets.show import counted, listed
from schemas.findings import BY_CODE

VERDICT: dict[str, tuple[str, str]] = {
    "viable": ("Fits", "good"),
    "viable_confirm": ("Fits if confirmed", "check"),
    "viable_extended": ("Fits with extension", "added"),
    "not_viable": ("Does not fit", "bad"),
    "no_kit": ("No kit fits", "bad"),
}
"""Short words and style of a verdict or an outcome."""

STATE: dict[str, tuple[str, str, str]] = {
    "ready": ("Ready", "good", "Every post on the survey has a kit and nothing waits."),
    "to_confirm": ("To confirm", "check", "Every post has a kit; what is listed below must be confirmed before ordering."),
    "incomplete": ("Incomplete", "bad", "Some posts are left out: a row waits for a correction, or nothing fits the post."),
}
"""Short words, style and sentence of a site's state."""

LOAD: dict[str, tuple[str, str]] = {
    "within": ("Within rough strength", "good"),
    "over": ("OVER rough strength", "bad"),
    "unknown": ("Strength not known", "check"),
}

KIND = {"goods": "Goods", "service": "Services", "freight": "Freight"}


def stops(codes: tuple[str, ...]) -> str:
    """Failed findings in words."""
    return ", ".join(BY_CODE[c].short for c in codes)


def abouts(codes: tuple[str, ...]) -> str:
    """Findings to confirm in words."""
    return ", ".join(BY_CODE[c].about for c in codes)


def number(report: SiteReport) -> str:
    """The quotation's number, `SITE-r1`."""
    return f"{report.site_code}-r{report.revision}"


def load(kit: KitReport) -> tuple[str, str]:
    """Words and style of a kit's load answer; moments that are not there were not computed."""
    if kit.moment_play != kit.moment_play:
        return "not computed", "check"
    return LOAD[kit.load_state]


def posts_named(posts: list[PostReport], most: int = 12) -> str:
    """Posts by code in one phrase: `Post 3`, `Posts 1, 2 and 7 more`."""
    codes = [p.row.post_code for p in posts]
    return f"{'Post' if len(codes) == 1 else 'Posts'} {listed(codes, most)}"


def posts_said(report: SiteReport) -> str:
    """How many posts and rows the quotation covers."""
    quoted = sum(p.quantity for p in report.posts)
    served = sum(p.quantity for p in report.posts if p.kits)
    held = counted(report.rows_held, "row") + (" waits" if report.rows_held == 1 else " wait") + " for a correction"
    parts = [f"{counted(report.posts_in_all, 'post')} on the survey", f"{quoted:,} read and checked", f"{served:,} with a kit"]
    return "; ".join(parts + ([held] if report.rows_held else []))
