"""Units that a heading or a number format shows."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import pairwise

from pipeline.intake.measures.text import plain
from pipeline.units import FEET_INCHES, find

_FEET_INCHES = re.compile(
    r"(?:ft|feet|foot|ft\.? ?'|'|pi|pieds?|pies?|p[ée]s?|piedi)\.? ?(?:[-/,&+_]|and|et|y|e)? ?"
    r"(?:in|ins|inch|inches|in\.? ?\"|\"|po|pouces?|pulg|pulgadas?|pol|polegadas?|poll|pollici)\.?",
    re.IGNORECASE,
)
_BRACKET = re.compile(r"\s*(?:\[([^\[\]()]*)\]|\(([^\[\]()]*)\)|\{([^{}]*)\})")
_TRAILING = re.compile(r"(?P<head>.*\S)\s*(?:,|;|:|\s-|_|/|\s\|)\s*(?P<unit>[^,;:_|]+?)\s*$")
_IN_UNIT = re.compile(r"(?P<head>.*\S)\s+(?:in|en|em)\s+(?P<unit>\S.*?)\s*$", re.IGNORECASE)
_BARE_UNITS = (
    "mm|cm|mt|mts|ft|feet|inches|metres|meters|millimetres|millimeters|centimetres|centimeters|"
    "mph|km/h|m/s|kg|lbs?|degrees|deg|ft-in"
)
_BARE = re.compile(rf"(?P<head>.*\S)\s+(?P<unit>{_BARE_UNITS})\.?\s*$", re.IGNORECASE)
_MEASURED = (
    r"\w+höhe|\w+hoehe|\w+durchmesser|\w+breite|\w+maß|\w+stärke|\w+dicke|\w+länge|\w+tiefe|heights|sizes|diameters|widths|"
    "diam|wide|tall|across|ø|hgt|larg|haut|alt|lg|durchm|girth|circumference|circ|largo|ancho|largeur|largura|larghezza|breite|"
    "h|ht|höhe|hauteur|altura|altezza|alto|durchmesser|diamètre|diámetro|diâmetro|diametro|lato|"
    "height|size|od|diameter|dia|width|depth|length|wall|thickness|rise|ground|grade|line|lean|travel"
)
_FEET_AND_INCHES = re.compile(
    r"(?P<head>.*?\S)(?:\s+in)?[\s,:;_]+(?P<unit>(?:ft|feet|foot)\.? ?(?:[-/,&+_]|and) ?(?:in|ins|inch|inches)\.?)\s*",
    re.IGNORECASE,
)
_PER = re.compile(r"(?P<head>.*\S)[\s,]+(?P<unit>(?:in|mm|cm)(?:/| per )(?:ft|m)|km/h|m/s)\.?", re.IGNORECASE)
_BARE_LETTER = re.compile(rf"(?P<head>(?:.*[^a-z])?(?:{_MEASURED})\.?) (?P<unit>in|m)\.?", re.IGNORECASE)
_CAMEL = re.compile(r"(?P<head>[A-Za-z]*[a-z])(?P<unit>MM|Mm|CM|Cm|IN|In|FT|Ft)")
"""`PostHeightMM`: the unit at the end of words that are written together."""
_LEADING = re.compile(
    r"(?P<before>(?:if |for )?(?:round|rnd|rd|circular|square|sq)\.?(?: [a-z]+)?\s*[:,;–—-]\s*)?"
    r"(?:how many |no\.? of |number of |# of |total )?(?P<unit>inches|ins|in\.|feet|ft\.?|foot|mm|cm) "
    r"(?P<head>(?:across|thru|through|around|round|wide|thick|tall|high|above|off|out|up|sticking|showing|exposed|over|"
    r"(?:on|to|per|each|every|a|along) (?:a |the |each |one |every )?(?:side|face|edge|flat))\b.*)",
    re.IGNORECASE,
)
"""`Inches around`, `How many feet above ground`, `Square: inches on a side`: the unit before what is measured."""
_RUN_TOGETHER = re.compile(r"(?P<head>(?:[A-Z_ ]*)(?:HEIGHT|HGT|HT|DIA|DIAM|OD|SIZE|WIDTH))(?P<unit>FT|IN|MM|CM)")
"""`HEIGHTFT`"""
_NAMES = {"nps": "NPS", "dn": "DN"}


def unit_name(text: str) -> str:
    """The short name of the unit that `text` is, all of it; '' where it is none.

    What several kinds spell alike in different cases (`KN`) stays as it is written: the kind of the
    column decides.
    """
    word = plain(text).strip()
    if not find(word):
        word = word.removeprefix("in ").strip()
    if _FEET_INCHES.fullmatch(word):
        return FEET_INCHES
    if word.casefold() in _NAMES:
        return _NAMES[word.casefold()]
    shorts = tuple(dict.fromkeys(u.short for u in find(word)))
    return shorts[0] if len(shorts) == 1 else word if shorts else ""


@lru_cache(maxsize=8192)
def heading_unit(text: str) -> tuple[str, str]:
    """The heading without its unit, and the unit's short name ('' where it shows none, or two that differ).

    `Height above ground [ft]`, `Post size (in)`, `Lean, deg`, `Height - mm`, `Post height in feet`,
    `height_mm`, `OD mm`. A bracket that holds no unit stays part of the heading.
    """
    flat = " ".join(text.translate(_WIDE).split())
    units = [(m, *found) for m in _BRACKET.finditer(flat) if (found := _in_bracket(next(g for g in m.groups() if g is not None)))]
    if units:
        bare = flat
        for m, _, rest in reversed(units):
            bare = f"{bare[: m.start()]} {rest} {bare[m.end() :]}"
        shown = {u for _, u, _ in units}
        return _tidy(bare), shown.pop() if len(shown) == 1 else ""
    if (leading := _LEADING.fullmatch(flat)) and (name := unit_name(leading["unit"])):
        return _tidy(f"{leading['before'] or ''}{leading['head']}"), name
    for pattern in (_RUN_TOGETHER, _FEET_AND_INCHES, _PER, _TRAILING, _IN_UNIT, _BARE, _BARE_LETTER, _CAMEL):
        trailing = pattern.fullmatch(flat)
        groups = trailing.groupdict() if trailing else {}
        head, unit = groups.get("head"), groups.get("unit")
        if head and unit and (name := unit_name(unit)):
            return _tidy(head), name
    return flat, ""


def _in_bracket(text: str) -> tuple[str, str] | None:
    """The unit in a bracket and what else stands there, in brackets again; None where it holds no unit."""
    if name := unit_name(text):
        return name, ""
    pieces = [p.strip() for p in re.split(r"[,;]", text)]
    names = [(p, n) for p in pieces if (n := unit_name(p))]
    if len(names) != 1:
        return None
    return names[0][1], f"({', '.join(p for p in pieces if p != names[0][0])})"


_WIDE = str.maketrans("［］（）｛｝【】", "[](){}[]")


def _tidy(heading: str) -> str:
    return " ".join(heading.split()).rstrip(" ,;:-_/|")


_LITERAL = re.compile(r'"([^"]*)"|\\(.)')


@lru_cache(maxsize=1024)
def format_unit(number_format: str) -> str:
    """The unit that a spreadsheet's number format shows beside the number ('' where it shows none).

    `0.0" mm"` is mm, `0\\'` is ft, `# ??/??\\"` is in, `0%` is `100 %` (the stored 0.05 shows as 5 %). A
    format that scales what it shows (`0.0,`) or whose sections differ shows no unit.
    """
    if len(number_format) > 200:
        return ""
    shown = [_section_unit(s) for s in _sections(number_format)[:2]]
    return shown[0] if shown and len(set(shown)) == 1 else ""


def _sections(number_format: str) -> list[str]:
    """Sections of a format (positive, negative, nought, text), parted by semicolons outside quotes."""
    masked = _LITERAL.sub(lambda m: "\0" * len(m[0]), number_format)
    cuts = [-1, *(m.start() for m in re.finditer(";", masked)), len(masked)]
    return [number_format[a + 1 : b] for a, b in pairwise(cuts)]


def _section_unit(section: str) -> str:
    """The unit that stands behind the figures of one section."""
    section = re.sub(r"\[[^\]]*\]|_.|\*.", "", section)
    outside = _LITERAL.sub("", section)
    if re.search(r"[0#?],+(?![0#?])", outside):
        return ""
    if "%" in outside:
        return "100 %"
    figures = re.compile(r"[0#?][0#?.,/ ]*(?:(?<=/)[0-9]+)?")
    masked = _LITERAL.sub(lambda m: "\0" * len(m[0]), section)
    places = list(figures.finditer(masked))
    if not places or "\0" in masked[places[0].end() : places[-1].start()]:
        return ""
    words = _LITERAL.sub(lambda m: m[1] if m[1] is not None else m[2], section[places[-1].end() :])
    name = unit_name(words)
    return "" if name in (FEET_INCHES, "NPS", "DN") else name
