"""What a site's recommended kits wait for, in words: what must be confirmed where, why, and by whom."""

from __future__ import annotations

from collections.abc import Iterator

from pipeline.sheets.customer_report import Named
from pipeline.sheets.report import PostReport, SiteReport
from pipeline.sheets.wording import posts_named, strength_open
from schemas.findings import BY_CODE


def confirms(report: SiteReport) -> Iterator[Named]:
    """What must be confirmed, the same words once, in the order of the rules; a strength that nobody knows comes last."""
    found: dict[tuple[str, str], list[PostReport]] = {}
    unknown: list[PostReport] = []
    for post in report.posts:
        sentences = {f.code: f.sentence for f in post.findings if f.state == "confirm"}
        for code in post.kit.confirm if post.kit else ():
            found.setdefault((code, sentences.get(code, "")), []).append(post)
        if strength_open(post) and post.kit and "STRENGTH" not in post.kit.confirm and post.kit.load_state != "within":
            unknown.append(post)
    for (code, sentence), posts in sorted(found.items(), key=lambda item: list(BY_CODE).index(item[0][0])):
        yield Named(posts_named(posts), BY_CODE[code].about, sentence, BY_CODE[code].confirmed_by)
    if unknown:
        words = "The strength is not known, since the wall, the material or the extension's rating is not."
        yield Named(posts_named(unknown), BY_CODE["STRENGTH"].about, words, BY_CODE["STRENGTH"].confirmed_by)
