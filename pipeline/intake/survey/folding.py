"""Texts as they are compared: without case, accents and light punctuation."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

_UNSEEN = re.compile("[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff\u00ad]")
_LIGHT = r"[\s\-_.,;:'’\"“”()/\\¿¡!]+"
_PUNCTUATION = re.compile(rf"(?<!\d){_LIGHT}|{_LIGHT}(?!\d)")


def _plain(text: str) -> str:
    """The text without accents and umlauts, in lower case; `ø`, which has no plain letter, stays."""
    apart = unicodedata.normalize("NFKD", text.replace("№", " no ")).casefold()
    return unicodedata.normalize("NFKC", "".join(c for c in apart if not unicodedata.combining(c)))


@lru_cache(maxsize=1024)  # a portfolio's files have the same headings, and few different words
def fold(text: str) -> str:
    """Heading as it is compared: letters and digits only; `#`, `n°` and `№` say number."""
    plain = _plain(re.sub(r"\b([Nn])[°º]", r"\1o ", text))
    plain = re.sub(r"#\s*(?:of\b|(?=posts\b|poles\b))", "no of ", plain)
    plain = re.sub(r"(?<=\w)\s*#\s*$", " no", plain).replace("&", " and ")
    return "".join(c for c in plain if c.isalnum())


@lru_cache(maxsize=1024)
def fold_word(text: str) -> str:
    """A word as it is compared with a list: without case, accents, spaces and light punctuation.

    Signs that cast doubt or turn a meaning (`?`, `~`, `+`, a minus) stay, and so does what stands between digits.
    """
    plain = _plain(_UNSEEN.sub("", text)).strip()
    sign = "-" if re.match(r"[-−–]\s*\d", plain) else ""
    return sign + _PUNCTUATION.sub("", plain)


def stem(word: str) -> str:
    """A folded word without an ending of gender or number: `saldate`, `saldati` and `saldato` have one stem."""
    for _ in range(2):
        word = re.sub(r"(?<=.{4})(?:e?s|[oaei])$", "", word)
    return word
