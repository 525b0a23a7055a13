"""Words of a list as people spell them: good, mendable, and known to say nothing; `nearest` for the rest."""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable
from functools import cache, lru_cache

from schemas.column import Column
from schemas.survey import SURVEY

_NOT_KNOWN = "not known|don't know|do not know|not sure|unsure|no idea|unk"

_SPELLINGS: dict[str, dict[str, str]] = {
    "site_kind": {
        "school": ("schools|school ground|school grounds|schoolyard|elementary school|middle school|high school"),
        "park": "parks|public park|city park|park ground",
        "league": "leagues|league ground|youth league",
    },
    "post_shape": {
        "round": "circular|circle|rnd|rd|round tube|round pipe|pipe|round post|round pole|cylindrical|tubular round",
        "square": "sq|sqr|square tube|square tubing|square post|square pole|box square",
    },
    "size_basis": {
        "outside diameter": "od|outer diameter|diameter|dia|outside dia|diam|external diameter",
        "outside width": "width|outer width|width across flats|across flats|outside width across flats|external width",
        "circumference": "circ|circum|girth|around|round the post|distance around|circumf",
        "nominal pipe size": "nominal|nps|nominal size|nominal pipe|nom|nominal diameter|dn|pipe nominal",
    },
    "measured_with": {
        "calipers": (
            "caliper|calliper|callipers|vernier|vernier caliper|vernier calipers|digital caliper|digital calipers|slide caliper"
        ),
        "tape round the post": (
            "tape around the post|tape around|tape round|tape around post|tape round post|"
            "tape measure around|tape measure around the post|wrap tape|diameter tape|pi tape"
        ),
        "rule across": (
            "ruler|ruler across|rule|ruler across the post|rule across the post|straight rule|tape across|"
            "tape across the post|tape measure across"
        ),
        "pipe mark": "mark on pipe|mark on the pipe|pipe marking|pipe markings|stamp on pipe|stencil on pipe",
        "drawing": "drawings|plan|plans|from drawing|as built drawing",
        "estimate": "estimated|est|guess|guessed|eyeballed|by eye|approximate",
    },
    "material": {
        "steel": (
            "galvanized steel|galvanised steel|galv steel|galvanized|galvanised|galv|painted steel|"
            "carbon steel|mild steel|black steel|steel pipe|steel tube"
        ),
        "aluminium": "aluminum|alu|alum",
        "wood": "timber|wooden|lumber|treated wood|treated timber",
        "unknown": _NOT_KNOWN,
    },
    "height_measured_with": {
        "tape": "tape measure|measuring tape|steel tape",
        "level or laser": ("level|laser|laser level|laser meter|laser measure|laser distance meter|optical level|total station"),
        "drawing": "drawings|plan|plans|from drawing|as built drawing",
        "estimate": "estimated|est|guess|guessed|eyeballed|by eye|approximate",
    },
    "post_line": {
        "straight": "str|straight up|straight post|straight pole|straight all the way",
        "tapered": "taper|tapering|conical",
        "gooseneck": "goosenecked|swan neck|gooseneck post|gooseneck pole",
        "bent": "bent post|bent pole|buckled",
        "unknown": _NOT_KNOWN,
    },
    "post_base": {
        "cast in": (
            "cast in concrete|in concrete|concreted in|concreted|set in concrete|embedded in concrete|"
            "cast in place|cast into concrete|concrete in"
        ),
        "ground sleeve": "sleeve|in ground sleeve|ground socket|socket|in sleeve",
        "driven": "driven in|driven into ground|rammed",
        "base plate": "bolted plate|bolted base plate|bolted down|flange|base flange|anchor bolts|plate",
        "portable": "mobile|on wheels|movable|moveable",
        "unknown": _NOT_KNOWN,
    },
    "old_fittings": {
        "none": "no|nil|bare|nothing|no fittings|0",
        "removable": "bolted|bolted on|clamped|clamped on|can be removed|can be taken off|unboltable",
        "fixed": "welded|welded on|weld|fixed on|cannot be removed|not removable|non removable",
        "unknown": _NOT_KNOWN,
    },
    "condition": {
        "sound": "good|no damage|intact",
        "surface rust": (
            "light rust|some surface rust|slight rust|minor rust|rust on surface|superficial rust|light surface rust"
        ),
        "corroded": "heavy rust|heavily rusted|badly rusted|rusted through|severe rust",
        "cracked": "crack|cracks",
        "loose": "wobbly|wobbles|loose in ground|loose footing",
        "unknown": _NOT_KNOWN,
    },
    "lean_shimmed": {"yes": "y|true|done", "no": "n|false"},
    "strength_cleared": {"yes": "y|true", "no": "n|false|refused"},
    "exposure": {w: f"exposure {w}|exp {w}|category {w}|cat {w}|exposure category {w}|class {w}" for w in "BCD"},
    "soil_class": {w: f"class {w}|row {w}|soil class {w}|{w}.0" for w in "12345"},
}

MENDABLE: dict[str, dict[str, tuple[str, ...]]] = {
    column: {word: tuple(spellings.split("|")) for word, spellings in words.items()} for column, words in _SPELLINGS.items()
}
"""Spellings with one meaning only, by column and word of the list."""

PASSED_OVER = ("-", "--", "---", "–", "—", ".", "/", "n/a", "na", "n.a.", "not applicable", "not available", "tbd", "tbc", "nil")
"""What people type into a cell to say nothing; it counts as blank only where a blank has no default."""

PASSED_OVER_MEASURES = ("unknown", *_NOT_KNOWN.split("|"), "not measured", "not taken")
PASSED_OVER_WISHES = ("any", "none", "no", "no wish", "no preference", "unknown", "any will do", "not asked")

_OPPOSITE = re.compile(
    r"\b(not|no|non|never|isn|without|inside|inner|internal|id|bore|radius)\b|^\s*(un(?!k)|in(?=[a-z]{4}))", re.IGNORECASE
)
"""Words that turn a meaning: `inside diameter` is near to `outside diameter` in letters only."""

_UNSEEN = re.compile("[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff\u00ad]")

_LONGEST_NOTHING = 40  # spaces included

_LIGHT = r"[\s\-_.,;:'’\"“”()/\\]+"
_PUNCTUATION = re.compile(rf"(?<!\d){_LIGHT}|{_LIGHT}(?!\d)")


def fold_word(text: str) -> str:
    """A word as it is compared with a list: without case, spaces and light punctuation.

    Signs that cast doubt or turn a meaning (`?`, `~`, `+`, a minus) stay, and so does what stands between digits.
    """
    plain = unicodedata.normalize("NFKC", _UNSEEN.sub("", text)).strip().casefold()
    sign = "-" if re.match(r"[-−–]\s*\d", plain) else ""
    return sign + _PUNCTUATION.sub("", plain)


@cache
def _known(name: str) -> dict[str, str]:
    """Folded spelling to word of the list, for one column."""
    known = {fold_word(s): word for word, spellings in MENDABLE.get(name, {}).items() for s in spellings}
    known.update({fold_word(w): w for w in SURVEY.column(name).values})
    return known


def word_of(name: str, text: str) -> str | None:
    """The word of column `name`'s list that `text` spells, or None."""
    return _known(name).get(fold_word(text))


@cache
def _says_nothing(kind: str) -> frozenset[str]:
    words = {"code": PASSED_OVER_WISHES, "length": PASSED_OVER_MEASURES}.get(kind, ())
    return frozenset(" ".join(w.split()).casefold() for w in (*PASSED_OVER, *words))


def says_nothing(column: Column, text: str) -> bool:
    """Whether `text` in a cell of `column` only says that there is nothing to say."""
    if len(text) > _LONGEST_NOTHING:
        return False
    kind = column.kind if column.kind == "length" or not column.needed else ""
    return " ".join(text.split()).casefold() in _says_nothing(kind)


@lru_cache(maxsize=1024)
def suggestions(name: str, text: str) -> tuple[str, ...]:
    """The nearest words of column `name`'s list, nearest first; none for what says the opposite of a word."""
    if _OPPOSITE.search(text):
        return ()
    known = _known(name)
    close = nearest(fold_word(text), known)
    found = dict.fromkeys(known[c] for c in close)
    parts = [p for w in re.split(r"[^\w]+", text) if (p := known.get(fold_word(w))) is not None]
    return tuple(dict.fromkeys([*parts, *found]))[:3]


def nearest(word: str, choices: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """The choices most like `word`, nearest first; none where nothing is near. Case does not count."""
    by_fold = {c.casefold(): c for c in choices}
    found = difflib.get_close_matches(word.casefold(), list(by_fold), n=most, cutoff=0.7)
    return tuple(by_fold[f] for f in found)
