"""A pipe's name in a size: NPS, DN, nominal bore, with or without a schedule."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from pipeline.intake.measures.doubts import could, instead, unreadable
from pipeline.intake.measures.measure import Doubt, Measure, PipeSize
from pipeline.intake.measures.pipes import (
    BY_DN,
    BY_NPS,
    INCH,
    PIPES,
    SCHEDULES,
    TOO_BIG,
    TWO_PIPES,
    Pipe,
    nearest,
    of_outside,
)
from pipeline.intake.measures.read import read_measure
from pipeline.intake.measures.text import quoted
from schemas.measure_words import PIPE

NOMINAL = "nominal pipe size"

_NPS = re.compile(
    r"(?<![a-z])(?:n\.?p\.?s\.?|i\.?p\.?s\.?|nominal pipe size|nominal size|nominal(?! bore)|nom\.?|pipe size)(?![a-z])"
    r"(?: ?[-:=](?= ?[0-9]))?",
    re.IGNORECASE,
)
_DN = re.compile(r"(?<![a-z])(?:dn|d\.n\.)(?![a-z])(?: ?[-:=](?= ?[0-9]))?", re.IGNORECASE)
_NB = re.compile(r"(?<![a-z])(?:nb|n\.b\.|nominal bore)(?![a-z])", re.IGNORECASE)
OUTSIDE = re.compile(r"(?<![a-z])(?:o\.?d\.?|o/d|outside|outer)(?![a-z])", re.IGNORECASE)
_PIPE_WORDS = re.compile(
    rf"(?<![a-z])(?:steel|galv(?:ani[sz]ed)?\.?|black|{'|'.join(PIPE)}|round|tube|tubing|post|pole|size|wall|weight|wt\.?|"
    r"redond[oa]|rond|tond[oa]|rotond[oa]|rund(?:e[rs]?)?|circula(?:r|re|ire)|acero|acier|stahl|aço|acciaio|galva(?:nizad[oa]|nisé)?|verzinkt|zincato|"
    r"rundrohr|tubular|tubolare|tub[eo] de|"
    r"dia(?:m(?:eter)?)?\.?)(?![a-z])|[:=,]\s",
    re.IGNORECASE,
)


def names_a_pipe(text: str) -> bool:
    """Whether the text speaks of a nominal size."""
    return any(p.search(text) is not None for p in (_NPS, _DN, _NB))


def _of_a_name(value: object, bare: str, doubt: Doubt, schedule: str) -> Doubt:
    """The doubt about the number in a pipe's name; its readings are pipes' names, never lengths."""
    tail = f" sch {schedule}" if schedule[:1].isdigit() else f" {schedule}".rstrip()
    sizes = (read_measure(r, "length") for r in doubt.readings if r.endswith(" in"))
    pipes = (BY_NPS.get(Fraction(s.value) / INCH) for s in sizes if isinstance(s, Measure))
    readings = tuple(dict.fromkeys(f"NPS {p.name}{tail}" for p in pipes if p))
    message = doubt.message.removesuffix(could(doubt.readings)).replace(quoted(bare), quoted(value)) + could(readings)
    return Doubt("UNREADABLE", message, instead(readings, "pipe"), readings)


def pipe_size(value: object, text: str, schedule: str, heading_unit: str, basis: str) -> PipeSize | Doubt:
    """A nominal size, by NPS or by DN."""
    if basis and basis != NOMINAL and not OUTSIDE.search(text):
        message = f"{quoted(value)} is a pipe's name, but the column “Size is” says {basis}."
        return Doubt("CONFLICT", message, "Put “nominal pipe size” in “Size is”, or type the outside size as measured.")
    bare = _PIPE_WORDS.sub(" ", text)
    if OUTSIDE.search(text):
        return _outside_with_schedule(value, bare, schedule, heading_unit, basis)
    bare = " ".join(_DN.sub(" ", _NB.sub(" ", _NPS.sub(" ", bare))).split())
    metric = bool(_DN.search(text)) or heading_unit == "DN" or (heading_unit == "mm" and basis == NOMINAL)
    if (m := re.fullmatch(r"([0-9]{1,4})(?: ?mm\.?)?", bare, re.IGNORECASE)) and _is_dn(text, bare, metric, basis, heading_unit):
        return _by_dn(value, int(m[1]), schedule)
    if _DN.search(text):
        return unreadable(value, "length", "is not a DN: that is a whole number such as DN 80")
    if _NB.search(text) and bare.isdigit():
        return unreadable(value, "length", "may be in inches or in millimetres", (f"NPS {bare}",) if _nps_of(bare) else ())
    if heading_unit not in ("", "in", "ft-in", "NPS") and re.fullmatch(r"[0-9 ./-]+", bare) and not _NPS.search(text):
        return unreadable(
            value, "length", f"is a pipe's name under a heading of {heading_unit}", (f"NPS {bare}",) if _nps_of(bare) else ()
        )
    size = read_measure(bare, "length", "in")
    if isinstance(size, Doubt):
        return _of_a_name(value, bare, size, schedule)
    if size.unit != "in":
        return unreadable(value, "length", f"gives a pipe's name in {size.unit}; an NPS is in inches, a DN has no unit")
    return _by_nps(value, Fraction(size.value) / INCH, schedule)


def _is_dn(text: str, bare: str, metric: bool, basis: str, heading_unit: str) -> bool:
    """Whether a bare whole number is a DN: named so, in mm, or a nominal bore that no NPS has."""
    if _NPS.search(text) and not bare.casefold().rstrip(".").endswith("mm"):
        return False
    own_mm = bare.casefold().rstrip(".").endswith("mm")
    no_nps = bool(_NB.search(text)) and bare.isdigit() and int(bare) > 12
    return metric or own_mm or no_nps


def _nps_of(bare: str) -> Pipe | None:
    size = read_measure(bare, "length", "in")
    return BY_NPS.get(Fraction(size.value) / INCH) if isinstance(size, Measure) else None


def _by_nps(value: object, nps: Fraction, schedule: str) -> PipeSize | Doubt:
    pipe = BY_NPS.get(nps)
    if pipe:
        return _found(value, pipe, f"NPS {pipe.name}", schedule, "in")
    other = of_outside(nps * INCH)
    if other:
        why = f"is no nominal pipe size; it is the outside diameter of NPS {other.name}"
        return unreadable(value, "length", why, (f"NPS {other.name}", f"{float(other.outside):g} in OD"))
    if nps in TOO_BIG:
        return unreadable(value, "length", f"is a pipe {float(nps):g} in wide: too big for a post here")
    near = nearest(nps)
    return unreadable(
        value, "length", f"is no nominal pipe size of ASME B36.10M that a post could have; the nearest is NPS {near.name}"
    )


def _by_dn(value: object, dn: int, schedule: str) -> PipeSize | Doubt:
    if dn in TWO_PIPES:
        one, other = TWO_PIPES[dn]
        message = (
            f"{quoted(value)} names two different pipes: DN {dn} is {one} mm outside in one standard and {other} mm in another."
        )
        return Doubt("CONFLICT", message, "Put a tape round the post, type that length, and put “circumference” in “Size is”.")
    pipe = BY_DN.get(dn)
    if pipe:
        return _found(value, pipe, f"DN {dn}", schedule, "mm")
    if Fraction(dn, 25) in TOO_BIG:
        return unreadable(value, "length", f"is a pipe {dn // 25} in wide (NPS {dn // 25}): too big for a post here")
    near = min(PIPES, key=lambda p: abs(p.dn - dn))
    return unreadable(value, "length", f"is no DN of a pipe; the nearest is DN {near.dn}")


def _found(value: object, pipe: Pipe, name: str, schedule: str, unit: str) -> PipeSize | Doubt:
    """The pipe, with the wall of its schedule where one is stated."""
    if schedule and schedule not in pipe.walls:
        listed = ", ".join(s for s in SCHEDULES if s in pipe.walls)
        return unreadable(value, "length", f"names a schedule that {name} does not have; it has {listed}")
    remarks = [f"{name} is {float(pipe.outside):g} in ({float(pipe.size * 1000):.1f} mm) outside, by ASME B36.10M"]
    wall = pipe.walls[schedule] * INCH if schedule else None
    if wall is not None:
        remarks.append(
            f"its schedule {schedule} wall is {float(pipe.walls[schedule]):.3f} in ({float(wall * 1000):.2f} mm), by ASME B36.10M"
        )
    return PipeSize(pipe.size, name, wall, unit, tuple(remarks))


def _outside_with_schedule(value: object, bare: str, schedule: str, heading_unit: str, basis: str) -> PipeSize | Doubt:
    """`3.5 in OD sch 40`: the outside diameter tells the pipe, the schedule its wall."""
    if basis not in ("", "outside diameter") or not schedule or _NPS.search(bare) or _DN.search(bare) or _NB.search(bare):
        message = f"{quoted(value)} speaks of a nominal size and of an outside size."
        return Doubt("CONFLICT", message, "Type one of them: NPS 3, or 3.5 in OD.")
    bare = " ".join(bare.split())
    size = read_measure(bare, "length", heading_unit)
    if isinstance(size, Doubt):
        return replace(size, message=size.message.replace(quoted(bare), quoted(value)))
    pipe = of_outside(Fraction(size.value))
    if pipe is None:
        message = f"{quoted(value)}: no pipe that has a schedule is so wide outside."
        return Doubt("CONFLICT", message, "Type the outside size alone, and the wall in its own column.")
    return _found(value, pipe, f"NPS {pipe.name}", schedule, "in")


def just_pipe(value: object, text: str) -> Doubt:
    """`3 in pipe`: the pipe's name, or its outside size."""
    bare = " ".join(_PIPE_WORDS.sub(" ", text).split())
    pipe = _nps_of(bare)
    readings: tuple[str, ...] = (f"NPS {pipe.name}", f"{pipe.name} in OD") if pipe else ()
    if not pipe and isinstance(read_measure(bare, "length"), Measure):
        readings = (f"{bare} OD",)
    return unreadable(value, "length", "may be the pipe's name or its outside size, which differ", readings)
