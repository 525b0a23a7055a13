"""What stands below the lines of a quotation: what is left out, what must be confirmed, what to look at, cautions."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from pipeline.intake.query import Query
from pipeline.sheets import show
from pipeline.sheets.open_points import confirms
from pipeline.sheets.report import Change, PostReport, SiteReport
from pipeline.sheets.wording import VERDICT, posts_named, strength_open
from schemas.words import CAUTION, ON_SITE_CHECKS

Entry = tuple[str, str, str]
"""Label ('' none), sentence, style."""
CHANGES_SHOWN = 12


@dataclass(frozen=True)
class Block:
    """A titled list of sentences."""

    title: str
    entries: tuple[Entry, ...]


def blocks(report: SiteReport) -> list[Block]:
    """Every block of the page, in reading order; one that has nothing to say says so or is left out."""
    made = [
        changed(report),
        left_out(report),
        to_confirm(report),
        load_warning(report),
        please_note(report),
        Block(
            "To be looked at on site, at every post", (("", " ".join(f"{what}: {say}" for what, say in ON_SITE_CHECKS), "para"),)
        ),
        Block("Caution", (("", CAUTION, "caution"),)),
    ]
    return [block for block in made if block.entries]


def changed(report: SiteReport) -> Block:
    """What changed since the revision before; empty for the first one."""
    if report.revision < 2:
        return Block("", ())
    entries: list[Entry] = []
    if report.total_was is not None:
        places = show.digits(report.totals.total)
        was, now = show.money(report.total_was, places), show.money(report.totals.total, places)
        entries.append(("Total", f"was {was}, is now {now} {report.currency}", "strong"))
    entries += [(c.item or c.kind, change_sentence(c), "para") for c in report.changes[:CHANGES_SHOWN]]
    more = len(report.changes) - CHANGES_SHOWN
    if more > 0:
        entries.append(("", f"And {show.counted(more, 'more change')}, which data/changes.csv of the run lists.", "note"))
    if not report.changes:
        entries.append(("", "No single reason was recorded.", "note"))
    return Block(f"What changed since r{report.revision - 1}", tuple(entries))


def change_sentence(change: Change) -> str:
    """One reason for a new revision: `price: was 10.00, is now 11.00`."""
    if change.was and change.now:
        return f"{change.kind}: was {change.was}, is now {change.now}"
    if change.now:
        return f"{change.kind}: {change.now}"
    return f"{change.kind}: was {change.was}" if change.was else change.kind


def left_out(report: SiteReport) -> Block:
    """Held rows by name with what to correct, and posts with no kit with their remedy."""
    entries: list[Entry] = []
    for row in report.held:
        name = f"Post {row.post_code}" if row.post_code else "A post without a name"
        wrong = [q for q in report.queries if q.holds_row and q.is_about(row)]
        sentences = " ".join(asks(q) for q in wrong)
        entries.append((name, f"Not quoted until the survey is corrected. {sentences}".strip(), "para"))
    for code_posts in _grouped((p for p in report.posts if not p.kits), lambda p: p.remedy):
        remedy = code_posts[0].remedy or "The technical desk has no remedy to offer."
        entries.append((posts_named(code_posts), f"{VERDICT['no_kit'][0]} this post. What would help: {remedy}", "para"))
    if report.rows_loose:
        rows = "1 row names" if report.rows_loose == 1 else f"{report.rows_loose} rows name"
        entries.append(("The survey", f"{rows} no site on a sheet that names this one, and may belong here.", "para"))
    if not entries:
        entries.append(("", "Nothing is left out: every row of the survey is quoted and every post has a kit.", "para"))
    return Block("Not included in this quotation", tuple(entries))


def asks(query: Query) -> str:
    """What is wrong, and what to type instead where that is not said yet."""
    instead = query.suggestion and query.suggestion not in query.message
    return f"{query.message} Instead: {query.suggestion}" if instead else query.message


def to_confirm(report: SiteReport) -> Block:
    """What must be confirmed before ordering, by whom, at which posts."""
    found: dict[tuple[str, str], list[str]] = {}
    for point in confirms(report):
        found.setdefault((point.about, point.who), []).append(
            f"{point.posts}: {point.sentence}" if point.sentence else point.posts
        )
    entries: list[Entry] = [
        (about.capitalize(), "\n".join([*sentences, f"To be confirmed by {who}."]), "para")
        for (about, who), sentences in found.items()
    ]
    if not entries and any(p.kits for p in report.posts):
        entries.append(("", "The survey leaves nothing open about the kits. The checks on site below still stand.", "para"))
    return Block("To be confirmed before ordering", tuple(entries))


def load_warning(report: SiteReport) -> Block:
    """Posts whose recommended kit is over the rough strength."""
    over = [p for p in report.posts if p.kit and p.kit.load_state == "over" and strength_open(p)]
    words = (
        "The rough load is over the rough strength of the post. Do not mount anything before a licensed engineer has cleared it."
    )
    return Block("Loads", ((posts_named(over), words, "caution"),) if over else ())


def please_note(report: SiteReport) -> Block:
    """Sentences about the site, wishes that could not be met, and what was taken where the survey says nothing."""
    entries: list[Entry] = [("", sentence, "para") for sentence in report.remarks]
    for query in report.queries:
        if not query.holds_row:
            name = f"Post {query.post_code}" if query.post_code else ""
            entries.append((name, asks(query), "para"))
    taken: dict[str, list[PostReport]] = {}
    for post in report.posts:
        for sentence in post.taken:
            taken.setdefault(sentence, []).append(post)
    where: dict[str, list[str]] = {}
    for sentence, posts in taken.items():
        everywhere = len(posts) == len(report.posts)
        where.setdefault("Every post" if everywhere else posts_named(posts), []).append(sentence)
    entries += [(name, " ".join(sentences), "para") for name, sentences in where.items()]
    return Block("Please note", tuple(entries))


def _grouped(posts: Iterable[PostReport], key: Callable[[PostReport], str]) -> list[list[PostReport]]:
    groups: dict[str, list[PostReport]] = {}
    for post in posts:
        groups.setdefault(key(post), []).append(post)
    return list(groups.values())
