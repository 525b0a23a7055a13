"""What a customer's quotation says of one site, from the site's report: nothing that is the desk's own."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from pipeline.sheets import show
from pipeline.sheets.assembly import Items, alike
from pipeline.sheets.customer_report import CustomerSite, Fitted, Named
from pipeline.sheets.notes import asks
from pipeline.sheets.open_points import confirms
from pipeline.sheets.report import PostReport, SiteReport
from pipeline.sheets.wording import VERDICT, fit_open, posts_named, stops, strength_open
from schemas.survey import SURVEY

_ASSUMED = ("court_rise", "clear_length", "lean", "condition", "post_base", "wind_speed", "exposure", "soil_class")
"""Columns that a quotation rests on where they were left blank."""


def customer_site(report: SiteReport, items: Items) -> CustomerSite:
    """The site as its customer's quotation shows it; `items` are the catalogue's rows by table and code."""
    return CustomerSite(
        site_code=report.site_code,
        site_name=report.site_name,
        revision=report.revision,
        state=report.state,
        posts=report.posts_in_all,
        posts_with_kit=_count(report, lambda p: bool(p.kits)),
        posts_to_confirm=_count(report, fit_open),
        posts_strength_open=_count(report, strength_open),
        rows_held=report.rows_held,
        net=report.totals.net,
        freight=report.totals.freight,
        tax=report.totals.tax,
        total=report.totals.total,
        goods_mass=report.totals.goods_mass,
        lines=report.lines,
        fitted=tuple(fitted(report, items)),
        left_out=tuple(_left_out(report)),
        confirms=tuple(confirms(report)),
        notes=tuple(_assumed(report)),
        feet=report.feet,
        promise=report.promise,
    )


def _count(report: SiteReport, counts: Callable[[PostReport], bool]) -> int:
    return sum(p.quantity for p in report.posts if counts(p))


def fitted(report: SiteReport, items: Items) -> Iterator[Fitted]:
    """What goes on the posts of a site, those that look the same together."""
    for a, posts in alike(report.posts, items).items():
        answers = list(dict.fromkeys(VERDICT[p.outcome][0] for p in posts))
        served = list(dict.fromkeys(f"{p.kit.covered} of {len(p.wanted)}" for p in posts if p.kit))
        codes = tuple(p.row.post_code for p in posts)
        yield Fitted(codes, sum(p.quantity for p in posts), a, "; ".join(answers), "; ".join(served))


def _left_out(report: SiteReport) -> Iterator[Named]:
    for row in report.held:
        wrong = " ".join(asks(q) for q in report.queries if q.holds_row and q.is_about(row))
        name = f"Post {row.post_code}" if row.post_code else "A post without a name"
        yield Named(name, "", f"Not quoted until the survey is corrected. {wrong}".strip())
    for posts in _same((p for p in report.posts if not p.kits), _stopped):
        why = _stopped(posts[0])
        yield Named(posts_named(posts), "", f"Nothing that we can offer fits as the post stands{f': {why}' if why else ''}.")


def _stopped(post: PostReport) -> str:
    """What stops a post, by the mount that fails least."""
    failed = min((m.failed for m in post.mounts if m.failed), key=len, default=())
    return stops(failed)


def _assumed(report: SiteReport) -> Iterator[Named]:
    """What the survey left blank and the quotation rests on, the same words once."""
    for posts in _same((p for p in report.posts if p.kits), _blank):
        if words := _blank(posts[0]):
            sentence = f"not stated on the survey, and taken as usual: {words}. Please tell us where it is otherwise."
            yield Named(posts_named(posts), "", sentence)


def _blank(post: PostReport) -> str:
    return show.listed([SURVEY.column(name).heading.lower() for name in _ASSUMED if name in post.row.not_stated])


def _same(posts: Iterable[PostReport], key: Callable[[PostReport], str]) -> list[list[PostReport]]:
    groups: dict[str, list[PostReport]] = {}
    for post in posts:
        groups.setdefault(key(post), []).append(post)
    return list(groups.values())
