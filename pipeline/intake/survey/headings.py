"""What stands over a column: which column of the glossary a heading means, and in which unit."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold, stem
from pipeline.intake.survey.heading_words import as_plural, composed, is_estimated, names_a_post, without_estimate
from pipeline.intake.survey.lay_headings import above_ground, of_a_ground_itself, of_one_shape, without_owner
from pipeline.intake.survey.list_words import question, read_word
from pipeline.intake.survey.whole_questions import whole_question, without_example
from pipeline.intake.survey.words_of_headings import our_words
from schemas.column import Column
from schemas.heading_phrases import BEFORE_A_FIELD, STANDING
from schemas.heading_words import FAINT_PLACES, PLURALS, POST_WORDS, REQUIRED, SAY_NOTHING, SPORT
from schemas.languages import HEADINGS, SPELLINGS, WEAK_HEADINGS
from schemas.survey import BARE_THINGS, PASSED_OVER_IN_HEADINGS, SURVEY, TOOL_OF

OWN, SYNONYM, WEAK, FAINT = 3, 2, 1, 0
"""How sure a heading is: our own word or name for the column; a synonym; a word that can mean much else; where, not what."""


@dataclass(frozen=True, slots=True)
class Claim:
    """A heading that means a column: the column's name, the heading's unit ('' = none), how sure."""

    name: str
    unit: str
    strength: int


def _meanings() -> dict[str, tuple[str, int]]:
    """Folded heading to column and strength; the strongest meaning of a heading wins."""
    known: dict[str, tuple[str, int]] = {}
    for strength, words in (
        (WEAK, ((w, n) for n, ws in WEAK_HEADINGS.items() for w in ws)),
        (SYNONYM, ((w, n) for n, ws in HEADINGS.items() for w in ws)),
        (OWN, ((w, c.name) for c in SURVEY.columns for w in (c.heading, c.name))),
    ):
        known.update({fold(w): (n, strength) for w, n in words})
    return known


MEANINGS = _meanings()


_NUMBERED = re.compile(
    r"^\s*(?:\(\d{1,2}\)|\d{1,2}(?:\.\d{1,2})*[.):]|\d{1,2}(?:\.\d{1,2})+(?=\s)|\d{1,2}\s+[-–—]\s|[A-Za-z]\)|Q\d{1,2}[.):]?)\s*(?=[^\W\d]|[Øø¿])"
)
"""A number in front of a heading: `(3) Height`, `3. Height`, `2.1 Height`, `b) Height`, `Q3: Height`."""
_OF_THE_GAME = re.compile(rf"\b(?:{SPORT})\b|^(?:{STANDING})(?= (?:{PLURALS})$)|(?<=s) (?:{STANDING})$", re.IGNORECASE)
_POSTS = ("quantity", "post_code")
_OF_AN_ADDRESS = re.compile(r"\b(?:postcodes?|eircode|zip ?code|postal code)\b", re.IGNORECASE)
_BEFORE_A_FIELD = re.compile(BEFORE_A_FIELD, re.IGNORECASE)
_REQUIRED = re.compile(rf"\s*[*†]+\s*|\s*[\[(](?:{REQUIRED})[\])]\s*$", re.IGNORECASE)
"""Marks of a field that must be filled in."""


def without_number(text: str) -> str:
    """A heading without the number in front of it."""
    return _NUMBERED.sub("", text)


_GEOMETRY = re.compile(r"shape[_. ]{1,3}(?:x|y|z|m|l|a|len\w*|area|st\w*)", re.IGNORECASE)
"""`SHAPE_X`: where a point of a map lies, in an export of a register."""


@lru_cache(maxsize=4096)
def claim(text: str) -> Claim | None:
    """The column that the heading `text` claims, or None."""
    if _OF_AN_ADDRESS.search(text) and fold(text) != "postcode":  # `Postcode` alone is told by its cells
        return None
    if _GEOMETRY.fullmatch(text.strip()):
        return None
    bare = as_plural(_REQUIRED.sub(" ", without_number(text)).strip())
    found = _claimed(bare) or _claimed(without_example(_BEFORE_A_FIELD.sub("", bare)))
    if found and found.name == "site_name" and says_where(text):
        return replace(found, strength=FAINT)
    if found is None:
        return _with_other_words(bare) or ((asked := whole_question(text)) and Claim(*asked, SYNONYM)) or None
    if found.name == "post_height" and of_a_ground_itself(heading_unit(bare)[0]):
        return None
    if found.unit and found.name in ("post_code", "post_shape"):
        return _measure_of_a_post(found)
    return found


def _with_other_words(bare: str) -> Claim | None:
    """The column of a heading without what it says beside: that it is an estimate, whose ground it is, of which shape."""
    if is_estimated(bare) and (measured := claim(without_estimate(bare))) and measured.name in TOOL_OF:
        return measured
    if (rest := without_owner(bare)) and (site := claim(rest)) and site.name in ("site_name", "site_code"):
        return replace(site, strength=min(site.strength, WEAK))
    if (over := above_ground(bare)) != bare and (high := claim(over)) and high.name == "post_height":
        return high
    return _size_of_one_shape(rest) if (rest := of_one_shape(bare)) else None


def _size_of_one_shape(rest: str) -> Claim | None:
    """The size of posts of one shape, by what stands behind the shape: `inches on a side`."""
    side, unit = heading_unit(rest)
    found = Claim("post_size", unit, SYNONYM) if _ON_A_SIDE.fullmatch(side) else claim(rest)
    return found if found and found.name == "post_size" else None


_ON_A_SIDE = re.compile(
    r"(?:on|to|per|each|every|along|either|one|a)(?: (?:a|each|one|every|the))? (?:side|face|edge|flat|way)", re.IGNORECASE
)


def _measure_of_a_post(found: Claim) -> Claim:
    """What `Pole (in)` says: its size, since no name has a unit; `Pole (ft)` its height; `Section (mm)`: the size."""
    if found.name == "post_shape":
        return replace(found, name="post_size", strength=WEAK) if found.unit in ("in", "mm", "cm") else found
    name = {"in": "post_size", "mm": "post_size", "ft": "post_height", "ft-in": "post_height"}.get(found.unit)
    return Claim(name, found.unit, WEAK) if name else found


_FAINT = frozenset(fold(w) for w in FAINT_PLACES)


def says_where(heading: str) -> bool:
    """Whether a heading says where, of a ground or within one: `Location`."""
    return fold(heading_unit(heading)[0]) in _FAINT


def _claimed(text: str) -> Claim | None:
    """The column that a heading without its number and marks claims."""
    bare, unit = heading_unit(_OF_A_SHAPE.sub("", _NOT_RING.sub("", text)))
    if unit and (named := composed(text)) and named[0] == "site_name":  # `site_nm`
        bare, unit = text, ""
    ours = our_words(bare)
    for words in (bare, text, _without_remark(bare), ours):
        known = MEANINGS.get(fold(words)) if words else None
        if known and not (words is ours and known[1] == WEAK):  # `grade` is ground, but no ground to play on
            return Claim(known[0], unit if words is not text else "", known[1])
    inner = _OF_A_POST.fullmatch(bare)
    if inner and names_a_post(inner[1]) and (found := claim(inner[2] or inner[3])) and found.strength > WEAK:
        return replace(found, unit=unit or found.unit)
    if bare.strip().lower() == "maß":  # folded, it would be the English mass
        return Claim("post_size", unit, WEAK)
    if (game := _OF_THE_GAME.sub("", bare).strip()) != bare and (known := MEANINGS.get(fold(game))) and known[0] in _POSTS:
        return Claim(known[0], unit, WEAK)  # `Basketball poles`
    if (either := _either(bare)) is not None:
        return Claim(either[0], unit, either[1])
    made = composed(bare) or (composed(ours) if " " in ours else None)
    if made and (made[1] or _has_synonym(bare, made[0])):
        return Claim(made[0], unit, SYNONYM)
    if len(fold(bare)) > _SHORT and not _ENDS_IN_A_LETTER.search(bare) and (alike := _by_stem().get(stem(fold(bare)))):
        return Claim(alike, unit, WEAK)
    if not unit and (m := _UNIT_BEHIND.fullmatch(bare)) and (sized := claim(m[1])) and sized.name in _LENGTHS and not sized.unit:
        return Claim(sized.name, m[2].lower(), sized.strength)
    asked, plainly = question(text)
    if asked is None and made:
        return Claim(made[0], unit, WEAK)
    return Claim(asked.column, "", SYNONYM if plainly else WEAK) if asked and (plainly or " " in text.strip()) else None


_ROUND_OR_SQUARE = r"\s*[\[(](?:(?:if|for|of|on) )?(?:round|rnd|rd|square|sq)\.?(?: (?:posts?|poles?|ones?))?[\])]"
_OF_A_SHAPE = re.compile(rf"{_ROUND_OR_SQUARE}(?=.*{_ROUND_OR_SQUARE})|(?<=[^\W_]){_ROUND_OR_SQUARE}(?=\s*$)", re.IGNORECASE)
"""`Dia. (round) / side (square)`: which of them is said of which post."""
_THE_RING = r"(?: to| the)* (?:rim|hoop|ring|back ?board|board|goal|basket|net)\b"
_NOT_RING = re.compile(rf"\s*\bnear (?:the )?top\b|[\s,;(\[-]*\b(?:not|no|excl(?:uding)?)\b\.?{_THE_RING}[)\]]*", re.IGNORECASE)
"""`Height (not rim)`, `OD near top`"""


def _has_synonym(heading: str, name: str) -> bool:
    """Whether a word of a heading is a synonym of the column by itself: `ht` in `Ht measured`."""
    words = re.findall(r"[^\W_]+", heading)
    return any(MEANINGS.get(fold(w), ("", WEAK)) in ((name, SYNONYM), (name, OWN)) for w in words)


_OR = re.compile(r"\s*[/&×+]\s*|\s+(?:x|by)\s+|\s+(?:or|and|ou|oder|o|u|bzw\.?|resp\.?)\s+", re.IGNORECASE)


_LETTERS = (frozenset(("d", "od", "ø", "dia", "diam")), frozenset(("b", "w", "a", "s")))
"""An engineer's letters for a round post's diameter and a square one's side: `D or B`. Source: common practice."""
_SIDE = ("post_size", WEAK)
_SIDES = frozenset(
    fold(w) for w in ("side", "sides", "lado", "côté", "Kantenlänge", "Kante", "Seite", "lato", "breadth", "face", "w")
)
"""Words for a square post's width, beside another for its diameter. Source: common practice."""


def _either(heading: str) -> tuple[str, int] | None:
    """What all pieces of `Diameter or side` mean, where it is one column; as sure as the surest of them."""
    pieces = _OR.split(heading)
    if len(pieces) == len(_LETTERS) and all({fold(p) for p in pieces} & letters for letters in _LETTERS):
        return _SIDE
    known = [_SIDE if fold(p) in _SIDES else MEANINGS.get(fold(p)) for p in pieces] if 1 < len(pieces) < 4 else [None]
    sure = [k for k in known if k]
    names = {k[0] for k in sure}
    if len(sure) < len(known):
        words = {fold(p) for p in pieces}
        asks = heading.rstrip(" *:").endswith("?")  # `Welded or bolted?`: what a yes means is not said
        lists = LISTS_IN_HEADINGS if not asks else ("post_shape",)
        listed = [n for n in lists if len(words) > 1 and all(_says(n, p) for p in pieces)]
        return (listed[0], SYNONYM) if len(listed) == 1 else None
    if names == {"site_code", "site_name"}:  # `School/Site`
        return "site_name", WEAK
    if names == {"post_size", "wall"} and sure[0][0] == "post_size":  # `Size x wall`
        return "post_size", SYNONYM
    if names == {"post_size", "post_shape"}:  # `Size/shape`: the size's own words say the shape
        return "post_size", SYNONYM
    return (sure[0][0], max(k[1] for k in sure)) if len(names) == 1 else None


_OF_A_POST = re.compile(r"([^\W\d_]+)\s*(?:\(([^()]+)\)|(?:: ?| [-–] )(\S.*))")
"""`Tubo (forma)`, `Poste: altura`: what of the post."""
_ENDS_IN_A_LETTER = re.compile(r"[\W_]\w\W*$")
"""`Diám. poste S`: a side, and no plural."""
_UNIT_BEHIND = re.compile(r"(.*[^\W\d]\.?) (m|in|mm|cm|ft)\.?", re.IGNORECASE)
_LENGTHS = ("post_size", "post_height", "wall")
_SHORT = 6  # letters of a heading whose ending may matter


@lru_cache(maxsize=1)
def _by_stem() -> dict[str, str]:
    """Stem to column, for headings of one long word in another number or gender (`Abmessung`, `dimensione`)."""
    found: dict[str, set[str]] = {}
    for word, (name, _) in MEANINGS.items():
        if len(word) > _SHORT:
            found.setdefault(stem(word), set()).add(name)
    return {s: names.pop() for s, names in found.items() if len(names) == 1}


def _without_remark(heading: str) -> str:
    """The heading without a bracket that says nothing about what is measured: `(needed)`, `(round/square)`."""
    m = re.fullmatch(r"(.*?)\s*[\[(](.*?)[\])]\s*[*:.]*\s*", heading, re.DOTALL)
    if m is None or not m[1]:
        return ""
    known = MEANINGS.get(fold(m[1])) or MEANINGS.get(fold(our_words(m[1])))
    words = {fold(w) for w in re.split(r"[\s,;/|]+|\bor\b", m[2])} - {""}
    listed = _listed(SURVEY.column(known[0])) if known else frozenset()
    if known and listed and len(words) > 1 and all(len(w) == 1 for w in words):  # `(N/B/W)`: letters of a legend
        return m[1]
    choices = known is not None and SURVEY.column(known[0]).kind == "choice" and len(re.split(r"[/,;|]| or ", m[2])) > 1
    return m[1] if choices or words <= PASSED_OVER_IN_HEADINGS | listed else ""


@lru_cache(maxsize=64)
def _listed(column: Column) -> frozenset[str]:
    return frozenset(fold(w) for v in column.values for w in v.split())


LISTS_IN_HEADINGS = ("post_shape", "post_line", "old_fittings", "post_base", "condition")
"""Columns that a heading can name by the words of their list: `Rund/Vierkant`, `bolted or welded`."""


def _says(name: str, words: str) -> bool:
    """Whether words say a value of a column's list: `sq. tube`; `tube` beside a pipe is the square one."""
    words = " ".join(w for w in re.findall(r"[^\W_]+(?:\.(?=\s|$))?", words) if fold(w) not in _SAY_NOTHING) or words
    return fold(words) in _spelled(name) or read_word(name, words) is not None or (name == "post_shape" and fold(words) in _TUBES)


_SAY_NOTHING = frozenset(fold(w) for w in SAY_NOTHING | (POST_WORDS - {"tube", "rohr", "tubo", "tubolare"}) | {"o", "è", "é"})
_TUBES = frozenset(fold(w) for w in ("tube", "tubing", "box", "box section", "other", "rectangular", "tubo", "scatolare"))


@lru_cache(maxsize=64)
def _spelled(name: str) -> frozenset[str]:
    """Every word of a column's list and every spelling, folded."""
    words = (*SURVEY.column(name).values, *(w for spellings in SPELLINGS[name].values() for w in spellings))
    return frozenset(fold(w) for w in words if len(fold(w)) > 1)


_OF_ANY_THING = {"existing", "old", "new"}


@lru_cache(maxsize=1024)
def joined(upper: str, lower: str, grouped: bool) -> Claim | None:
    """What a heading written over two rows claims.

    `upper` stands over `lower`, or over a group of columns (`grouped`). Together they may name a
    column (`Height` over `above ground [ft]`, `Ring` over `height`); else the lower one speaks
    alone, unless it stands under another thing of the court (`Board` over `Height`).
    """
    if upper and (unit := only_unit(lower)) and (measured := claim(upper)) and measured.name in _LENGTHS and not measured.unit:
        return replace(measured, unit=unit)
    both = claim(f"{upper} {lower}") if upper and lower else None
    if both or not lower:
        return both or claim(upper)
    if not upper:
        return claim(lower)
    return None if not grouped or of_a_thing(upper) else claim(lower)


def of_a_thing(group: str) -> bool:
    """Whether a heading over a group of columns names another thing of the court than the post: `Backboard`."""
    things = {fold(w) for w in group.split()} - (_OF_ANY_THING if "post" in our_words(group).split() else set())
    return bool(things & BARE_THINGS)


@lru_cache(maxsize=1024)
def only_unit(text: str) -> str:
    """The unit, where a cell says nothing but a unit (`ft`, `[mm]`); else ''."""
    word = text.strip().strip("[]()").strip()
    bare, unit = heading_unit(f"x [{word}]") if word else ("", "")
    return unit if bare.strip() == "x" else ""
