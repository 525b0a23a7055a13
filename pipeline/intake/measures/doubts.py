"""Why a text is not one measure, said to the person who typed it, with the readings it could have."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from pipeline.intake.measures.forms import UnclearFormError, match, words
from pipeline.intake.measures.measure import Doubt
from pipeline.intake.measures.text import quoted
from pipeline.intake.measures.tokens import Token
from pipeline.units import BY_KIND, FEET_INCHES, Unit, find, si, unit_of
from schemas.lists import joined
from schemas.measure_words import CHANGING, DOUBT, RANGE

Reads = Callable[[str], bool]
"""Whether a text, typed into the same cell, would be read."""

EXAMPLES = {
    "length": "a length with its unit, such as 8'6\" or 2590 mm",
    "angle": "an angle or a slope, such as 0.5 deg or 1/4 in per ft",
    "speed": "a speed with its unit, such as 115 mph or 51.4 m/s",
    "mass": "a mass with its unit, such as 88 lb or 40 kg",
    "force": "a force with its unit, such as 3200 N or 720 lbf",
    "pressure": "a pressure with its unit, such as 766 Pa or 16 psf",
    "moment": "a moment with its unit, such as 3000 N m or 2200 lb ft",
    "pipe": "the outside size with its unit, such as 3 1/2 in or 88.9 mm, or a pipe size, such as NPS 3",
    "percent": "per cent, such as 5 %",
    "number": "a plain number, such as 0.85",
}
"""What to type for a kind, in words."""

INSTEAD = {
    "a length round the post": "Type the length alone, and put “circumference” in “Size is”.",
    "an inside size": "Type the outside size with its unit, such as 3 1/2 in.",
    "a radius": "Type the diameter with its unit, such as 3 1/2 in.",
    "a gauge number": "Type the thickness with its unit, such as 0.12 in.",
    "a level below": "Type what lies lower with a minus, such as -4 in.",
    "a round post or a length round the post": (
        "Type the size alone; the shape has its own column, and “Size is” tells a circumference."
    ),
}
"""What to type instead of a measure of something else."""

_CANDIDATES = {
    "length": ("ft", "in", "mm", "cm", "m"), "angle": ("deg", "%"), "speed": ("mph", "km/h", "m/s", "kn"), "mass": ("lb", "kg"),
    "force": ("N", "kN", "lbf"), "pressure": ("Pa", "kPa", "MPa", "psf", "psi"), "moment": ("N m", "kN m", "lb ft"),
    "percent": ("%",),
}  # fmt: skip
_USUAL_LENGTH = (Fraction(2, 100), Fraction(13))


def example(kind: str) -> str:
    """What to type for a kind, as an instruction."""
    return f"Type {EXAMPLES[kind]}."


def unreadable(value: object, kind: str, why: str, readings: tuple[str, ...] = ()) -> Doubt:
    """An UNREADABLE with what stands there, why, its readings, and what to type."""
    return Doubt("UNREADABLE", f"{quoted(value)} {why}.{could(readings)}", instead(readings, kind), readings)


def instead(readings: tuple[str, ...], kind: str) -> str:
    """What to type: the one reading; of several, whichever is meant; where there is none, what a good cell looks like."""
    if len(readings) < 2:
        return readings[0] if readings else example(kind)
    return f"Type the one that is meant: {joined(readings, 'or')}."


def no_unit(value: object, kind: str, number: str, why: str, reads: Reads) -> Doubt:
    """A NO_UNIT that names the units that the number could be in."""
    candidates = tuple(f"{number} {u}" for u in _plausible_units(number, kind))
    if kind == "angle" and re.fullmatch(r"1/[0-9]{2,}", number):
        candidates = (f"1:{number[2:]}", *candidates)
    readings = tuple(r for r in candidates if reads(r))
    if not readings:
        return unreadable(value, kind, "has no unit, and is not one clear number")
    return Doubt("NO_UNIT", f"{quoted(value)} {why}.{could(readings)}", instead(readings, kind), readings)


def _plausible_units(number: str, kind: str) -> tuple[str, ...]:
    units = _CANDIDATES[kind]
    if kind != "length":
        return units
    try:
        size = abs(Fraction(number.replace(",", ".")))
    except (ValueError, ZeroDivisionError):
        return units
    low, high = _USUAL_LENGTH
    fit = tuple(u for u in units if low <= size * si(unit_of(u, kind)) <= high)
    return fit or units


def could(readings: tuple[str, ...]) -> str:
    """The sentence that names the readings; '' where there are none."""
    return f" It could be {joined(readings, 'or')}." if readings else ""


def explain(value: object, found: tuple[Token, ...], kind: str, heading: Unit | None, heading_text: str, reads: Reads) -> Doubt:
    """The doubt about a text that has none of the forms; `reads` tells which readings can be typed."""
    texts = dict.fromkeys(t.text.casefold().rstrip(".") for t in found if t.letter in "x-+")  # as they stand there
    phrase = " ".join(t.text for t in found).casefold()
    readings = _pointed(str(value)) or _readings(found, heading, heading_text)
    readings = tuple(r for r in readings if reads(r))
    if not any(t.letter in "idfg" for t in found):
        return unreadable(
            value, kind, "holds no number" if not re.search(r"\d", str(value)) else "is not a number that can be read here"
        )
    if any(t.letter == "g" for t in found):
        return unreadable(value, kind, "holds an improper fraction", tuple(r for r in _improper(found, heading) if reads(r)))
    if other := _other_kind(found, kind):
        return unreadable(value, kind, f"is in {other[1]}, a unit of {other[0]}, where {_a(kind)} is asked for")
    changing = next((CHANGING[t] for t in texts if t in CHANGING), "")
    if changing and not (kind != "length" and changing == "a length round the post"):
        return Doubt("UNREADABLE", f"{quoted(value)} speaks of {changing}.", INSTEAD.get(changing, example(kind)))
    if (
        texts.keys() & set(DOUBT)
        or _open_ended(found)
        or any(re.search(rf"\b{re.escape(d)}\b", phrase) for d in DOUBT if " " in d)
    ):
        return _estimate(value, kind, readings)
    if texts.keys() & set(RANGE) or _is_range(found):
        return unreadable(value, kind, "may be a range; one measure is needed", readings)
    if sum(t.letter in "idf" for t in found) > 1:
        return unreadable(value, kind, "holds more than one measure, or can be read in more than one way", readings)
    unknown = [t.text for t in found if t.letter == "x"]
    why = f"holds {quoted(' '.join(unknown))}, which is not known here" if unknown else "cannot be read as one measure"
    return unreadable(value, kind, why, readings)


def _estimate(value: object, kind: str, readings: tuple[str, ...]) -> Doubt:
    """A word of doubt beside a number: what was not measured is an estimate, and there is a place to say so."""
    doubt = unreadable(value, kind, "casts doubt on the number", readings)
    if len(readings) != 1:
        return replace(doubt, suggestion="Measure again, and type the one measure.")
    return replace(doubt, suggestion=f"Measure again; or leave it blank where only {readings[0]} was guessed.", estimate=True)


def _open_ended(found: tuple[Token, ...]) -> bool:
    """Whether a plus stands behind a number: `8 ft +`, `8.5' +/-`."""
    return any(t.letter == "+" and any(b.letter in "idf" for b in found[:i]) for i, t in enumerate(found))


_POINTED = re.compile(r"([0-9]+) ?(?:ft|feet|foot)\.([0-9]+) ?(?:in|ins|inch|inches|\")\.?", re.IGNORECASE)


def _pointed(text: str) -> tuple[str, ...]:
    """Readings of `8ft.6in`, whose point may belong to the word before it or to the number behind it."""
    m = _POINTED.fullmatch(text.strip())
    return (f"{m[1]} ft {m[2]} in", f"{m[1]} ft 0.{m[2]} in") if m else ()


def _a(kind: str) -> str:
    return f"an {kind}" if kind == "angle" else f"a {kind}"


def _is_range(found: tuple[Token, ...]) -> bool:
    return any(
        t.letter == "-" and 0 < i < len(found) - 1 and found[i - 1].letter in "idfU" and found[i + 1].letter in "idf"
        for i, t in enumerate(found)
    )


def _other_kind(found: tuple[Token, ...], kind: str) -> tuple[str, str] | None:
    """Kind and name of a unit that does not belong here."""
    for t in found:
        if t.letter == "x" and (units := find(t.text)) and all(u.kind not in BY_KIND.get(kind, (kind,)) for u in units):
            return units[0].kind, units[0].short
    return None


def _improper(found: tuple[Token, ...], heading: Unit | None) -> tuple[str, ...]:
    """Readings of `11/2"`: 1 1/2 in and 5.5 in."""
    fractions = [t for t in found if t.letter == "g"]
    if len(fractions) != 1 or any(t.letter in "idf" for t in found):
        return ()
    unit = next((t.unit.short for t in found if t.unit), heading.short if heading else "")
    n, _, d = fractions[0].text.replace(" ", "").partition("/")
    split: tuple[str, ...] = ()
    if len(n) > 1 and n[1] != "0":
        split = (f"{n[0]} {n[1:]}/{d} {unit}".strip(),)
    whole = Fraction(int(n), int(d)) if int(d) else None
    exact = () if whole is None or (whole * 128).denominator != 1 else (f"{float(whole):.12g} {unit}".strip(),)
    return split + exact


def _readings(found: tuple[Token, ...], heading: Unit | None, heading_text: str) -> tuple[str, ...]:
    """Each stretch of the text that is a measure by itself; a bare number takes the unit that stands last.

    None where anything but words of doubt or of a range is left over: what is not understood may change every number.
    """
    if any(_changes(t) for t in found) or _lone_unit(found):
        return ()
    last = next((t.unit for t in reversed(found) if t.unit), heading)
    out: list[str] = []
    for stretch in _stretches(found):
        try:
            match(stretch, last, heading_text)
        except UnclearFormError as e:
            out.extend(e.readings)
            continue
        alone = not any(t.letter == "U" for t in stretch) and heading_text != FEET_INCHES
        out.append(f"{words(stretch)} {last.short}" if alone and last else words(stretch))
    return tuple(dict.fromkeys(out))[:4]


_HARMLESS = frozenset(w for d in (*DOUBT, *RANGE) for w in d.split()) | {"x"}


def _changes(token: Token) -> bool:
    """Whether a token that no form has may change what the numbers beside it mean."""
    return token.letter == "x" and token.text.casefold().rstrip(".") not in _HARMLESS


def _lone_unit(found: tuple[Token, ...]) -> bool:
    """Whether a unit stands apart from every number: `10 m / m`."""
    runs = "".join(t.letter if t.letter in "idfgU" else " " for t in found).split()
    return any(set(run) == {"U"} for run in runs)


def _stretches(found: tuple[Token, ...]) -> list[tuple[Token, ...]]:
    """Runs of numbers and units, parted by anything else."""
    runs: list[list[Token]] = [[]]
    for t in found:
        if t.letter in "idfU":
            runs[-1].append(t)
        else:
            runs.append([])
    return [tuple(r) for r in runs if any(t.letter in "idf" for t in r)]
