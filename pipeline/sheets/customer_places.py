"""Sentences of a customer's quotation that hold at several places: each said once, with all of its places."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from pipeline.sheets import show
from pipeline.sheets.customer_report import CustomerSite, Named


def by_sentence(sites: Sequence[CustomerSite], pick: Callable[[CustomerSite], Iterable[Named]]) -> list[tuple[str, str]]:
    """Label and sentence, in the order in which the sentences come first; many places stand behind the sentence."""
    found: dict[str, list[tuple[str, str]]] = {}
    for site in sites:
        for n in pick(site):
            found.setdefault(n.sentence, []).append((site.site_code, n.posts))
    return [_entry(sentence, places, several=len(sites) > 1) for sentence, places in found.items()]


def _entry(sentence: str, places: list[tuple[str, str]], *, several: bool) -> tuple[str, str]:
    if not several:
        return show.listed(list(dict.fromkeys(posts for _, posts in places))), sentence
    named = [f"{code}: {posts}" if posts else code for code, posts in places]
    if len(named) == 1:
        return named[0], sentence
    count = len({code for code, _ in places})
    return show.counted(count, "site"), f"{sentence}\n{'; '.join(named)}."
