"""How values are shown to people: lengths in the site's units, money, shares, lists. Pure functions of SI values."""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import Decimal
from functools import lru_cache

from schemas.lengths import INCH, MPH, NEAREST, ROUNDED, feet_and_inches, in_steps
from schemas.lists import joined

POUND = 0.45359237
"""Source: international avoirdupois pound [kg] (NIST SP 811)."""
POUND_FORCE = 4.4482216152605
"""Source: pound-force [N] (NIST SP 811)."""

UNKNOWN = "not known"
NOT_COMPUTED = "not computed"
TOO_SLENDER = "too slender for this screen"


@lru_cache(maxsize=4096)  # sizes, targets and steps come again and again
def length(metres: float | None, feet: bool, way: str = NEAREST) -> str:
    """A length [m] as people read it: `8 ft 6 1/2 in` to 1/16 in, or `2591 mm`; None is 'not known'.

    Less than a foot has no feet; less than 300 mm keeps one decimal, since pipe sizes need it. way: NEAREST, UP or DOWN.
    """
    if metres is None or math.isnan(metres):
        return UNKNOWN
    return _feet(metres, way) if feet else _millimetres(metres, way)


def _feet(metres: float, way: str = NEAREST) -> str:
    return feet_and_inches(in_steps(metres, INCH / 16, way))


def _millimetres(metres: float, way: str = NEAREST) -> str:
    return f"{millimetres(metres, way):g} mm"


def millimetres(metres: float, way: str = NEAREST) -> float:
    """A length [m] in mm as it is shown: to 0.1 mm below 300 mm, else to 1 mm; half goes up."""
    scale = 10 if abs(metres) < 0.3 else 1
    return in_steps(metres, 1e-3 / scale, way) / scale


def both(metres: float | None, feet: bool, way: str = NEAREST) -> str:
    """A length [m] in the site's units with SI beside: `8 ft 6 1/2 in (2.597 m)`; mm are SI already."""
    if metres is None or math.isnan(metres):
        return UNKNOWN
    return f"{_feet(metres, way)} ({in_steps(metres, 1e-3, way) / 1000:.3f} m)" if feet else _millimetres(metres, way)


def bound(metres: float, feet: bool) -> str:
    """A bound on a length [m]: `±1.6 mm`, or `±0.063 in` where the site measures in feet."""
    if math.isnan(metres):
        return f"± {UNKNOWN}"
    return f"±{metres / INCH:.2g} in" if feet else f"±{metres * 1000:.3g} mm"


def wall(metres: float | None, feet: bool) -> str:
    """A wall that was read [m]: to 0.001 in, or to 0.1 mm; sixteenths are too coarse for it."""
    if metres is None or math.isnan(metres):
        return f"wall {UNKNOWN}"
    return f"{metres / INCH:.3f} in" if feet else f"{metres * 1000:.1f} mm"


def wall_to_look_for(metres: float, feet: bool) -> str:
    """A least wall [m], never shown thinner than it is: up to 0.005 in, or to 0.1 mm. Source: design section 7."""
    metres += ROUNDED
    return f"{up(metres / INCH, 0.005):.3f} in" if feet else f"{up(metres * 1000, 0.1):.1f} mm"


def depth(metres: float, feet: bool) -> str:
    """A least depth [m], never shown less deep than it is: up to the next inch, or to 10 mm."""
    metres += ROUNDED
    return _feet(up(metres / INCH, 1) * INCH) if feet else f"{up(metres * 1000, 10):.0f} mm"


def set_out(metres: float, feet: bool) -> str:
    """A length to be measured off on site [m]: to 1/8 in, or to 5 mm."""
    return (
        _feet(math.floor(metres / INCH * 8 + 0.5 + 1e-9) / 8 * INCH)
        if feet
        else f"{math.floor(metres * 200 + 0.5 + 1e-9) * 5} mm"
    )


def up(value: float, step: float) -> float:
    """The least multiple of `step` that is not below `value`; binary drift of an exact multiple does not count."""
    return math.ceil(value / step - 1e-9) * step


def money(amount: Decimal, digits: int = 2) -> str:
    """An amount with thousands separators and the currency's decimals: `1,234.50`."""
    return f"{amount:,.{digits}f}"


def digits(amount: Decimal) -> int:
    """Decimals of an amount that was rounded to the minor unit."""
    exponent = amount.as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 2


def mass(kilograms: float, feet: bool) -> str:
    """A mass [kg], in pounds where the site measures in feet."""
    if kilograms != kilograms:
        return NOT_COMPUTED
    return f"{kilograms / POUND:,.0f} lb" if feet else f"{kilograms:,.0f} kg"


def speed(metres_a_second: float, feet: bool) -> str:
    """A speed [m/s], in miles per hour where the site measures in feet."""
    if math.isnan(metres_a_second):
        return UNKNOWN
    return f"{metres_a_second / MPH:.0f} mph" if feet else f"{metres_a_second:.1f} m/s"


def moment(newton_metres: float, feet: bool) -> str:
    """A moment [N m] to three digits, in foot pounds with SI beside where the site measures in feet; NaN was not computed."""
    if newton_metres != newton_metres:
        return NOT_COMPUTED
    shown = f"{_three(newton_metres)} N m"
    return f"{_three(newton_metres / (POUND_FORCE * 12 * INCH))} lbf ft ({shown})" if feet else shown


def _three(value: float) -> str:
    """A number to three digits, without an exponent."""
    return f"{float(f'{value:.3g}'):,.0f}" if abs(value) >= 100 else f"{value:.3g}"


def deflection(metres: float, feet: bool) -> str:
    """How far something goes down [m], to two digits, SI beside inches."""
    shown = f"{float(f'{metres * 1000:.2g}'):g} mm"
    return f"{float(f'{metres / INCH:.2g}'):g} in ({shown})" if feet else shown


def angle(radians: float) -> str:
    """An angle [rad] in degrees, with the slope that a level shows."""
    if radians == 0:
        return "plumb"
    return f"{math.degrees(radians):.1f}° ({math.tan(radians) * 1000:.0f} mm in 1 m)"


def share(utilisation: float | None) -> str:
    """A share of strength in words: `87 %`; a share just above 1 never reads 100 %."""
    if utilisation is None or math.isnan(utilisation):
        return UNKNOWN
    if math.isinf(utilisation):
        return TOO_SLENDER
    percent = utilisation * 100
    shown = math.ceil(percent) if utilisation > 1 else math.floor(percent + 0.5)
    return f"{max(shown, 101) if utilisation > 1 else shown:,.0f} %"


def listed(parts: Sequence[str], most: int = 0) -> str:
    """Names in one line: `P1, P2 and P3`; more than `most` are counted: `P1, P2 and 7 more`."""
    if most and len(parts) > most:
        return ", ".join(parts[:most]) + f" and {len(parts) - most} more"
    return joined(parts)


def counted(number: int, one: str, many: str = "") -> str:
    """A count with its noun: `1 post`, `2 posts`."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def kit(mount: str, board: str, ring: str, extension: str = "") -> str:
    """A kit in one line: `M + B + R, with extension X`."""
    return f"{mount} + {board} + {ring}" + (f", with extension {extension}" if extension else "")
