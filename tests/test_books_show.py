"""How values are shown, colours, and text that is safe in a cell."""

from __future__ import annotations

import math
import re
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.rules import plain
from pipeline.sheets import show
from pipeline.xlsx import styles
from pipeline.xlsx.wrap import clean, fitted, lines, parts_unit, width
from schemas.lengths import DOWN, NEAREST, UP, in_steps

# Source: international foot and inch, exactly 0.3048 m and 25.4 mm (NIST SP 811)
LENGTHS = [
    (8 * 0.3048 + 6.5 * 0.0254, "8 ft 6 1/2 in", "2604 mm"),
    (0.0889, "3 1/2 in", "88.9 mm"),
    (3.048, "10 ft", "3048 mm"),
    (2.7, "8 ft 10 5/16 in", "2700 mm"),
    (0.0, "0 in", "0 mm"),
    (-0.1016, "-4 in", "-101.6 mm"),
    (0.0254 / 32, "1/16 in", "0.8 mm"),
    (0.0254 / 33, "0 in", "0.8 mm"),
    (12 * 0.0254 - 1e-9, "1 ft", "305 mm"),
    (None, "not known", "not known"),
    (math.nan, "not known", "not known"),
]


@pytest.mark.parametrize(("metres", "feet", "millimetres"), LENGTHS)
def test_length(metres, feet, millimetres):
    assert show.length(metres, True) == feet
    assert show.length(metres, False) == millimetres


def metres_of(text: str) -> float:
    """What a shown length says, in metres."""
    if text.endswith("mm"):
        return float(text.removesuffix(" mm")) / 1000
    inches = 0.0
    for word in text.lstrip("-").replace(" ft", "'").replace(" in", "").split():
        if word.endswith("'"):
            inches += 12 * int(word[:-1])
        elif "/" in word:
            above, below = word.split("/")
            assert math.gcd(int(above), int(below)) == 1
            inches += int(above) / int(below)
        else:
            inches += int(word)
    return inches * 0.0254 * (-1 if text.startswith("-") else 1)


@given(st.floats(-20, 20))
def test_feet_lie_within_half_a_sixteenth(metres):
    assert metres_of(show.length(metres, True)) == pytest.approx(metres, abs=0.0254 / 32 + 1e-9)


@given(st.floats(-20, 20), st.booleans())
def test_a_length_is_never_shown_on_the_unsafe_side(metres, feet):
    """What must at least be there is never shown shorter, what there is never longer, in tables and in sentences."""
    kept, step, slack = round(metres, 6), 0.0254 / 16 if feet else 0.001, 5.1e-7
    units = plain.FEET if feet else plain.METRIC
    for text in (show.length(kept, feet, UP), plain.at_least(kept, units)):
        assert kept - slack <= metres_of(text) < kept + step
    for text in (show.length(kept, feet, DOWN), plain.at_most(kept, units)):
        assert kept - step < metres_of(text) <= kept + slack


@pytest.mark.parametrize("sixteenths", range(1, 1920, 97))
def test_a_whole_number_of_sixteenths_is_itself_whichever_way_it_is_rounded(sixteenths):
    """Results are kept to the micrometre, so 1/16 in is 1.587 or 1.588 mm by then."""
    kept, exact = round(sixteenths * 0.0254 / 16, 6), sixteenths * 0.0254 / 16
    for text in (*(show.length(kept, True, way) for way in (NEAREST, UP, DOWN)),
                 plain.height(kept, plain.FEET), plain.at_least(kept, plain.FEET), plain.at_most(kept, plain.FEET)):  # fmt: skip
        assert metres_of(text) == pytest.approx(exact, abs=1e-12)


SHARES = [
    (0.874, "87 %"),
    (1.0, "100 %"),
    (1.0000001, "101 %"),
    (1.42, "142 %"),
    (math.inf, "too slender for this screen"),
    (None, "not known"),
    (math.nan, "not known"),
]


@pytest.mark.parametrize(("utilisation", "words"), SHARES)
def test_share_of_strength_is_never_a_wrong_zero(utilisation, words):
    assert show.share(utilisation) == words


def test_names_in_a_line():
    assert show.listed([]) == ""
    assert show.listed(["a"]) == "a"
    assert show.listed(["a", "b", "c"]) == "a, b and c"
    assert show.listed(["a", "b", "c"], 2) == "a, b and 1 more"


def contrast(ink: str, ground: str) -> float:
    """Contrast ratio of two colours `#RRGGBB`.

    Source: WCAG 2.1, definitions of relative luminance and contrast ratio.
    """

    def luminance(colour: str) -> float:
        parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        r, g, b = (p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
        return 0.2126 * r + 0.7152 * g + 0.0722 * b

    light, dark = sorted((luminance(ink), luminance(ground)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_every_pair_of_colours_can_be_read():
    # Source: WCAG 2.1, success criterion 1.4.3: at least 4.5 to 1; black on white is 21 to 1 there
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert {name: pair for name, pair in styles.PALETTE.items() if contrast(*pair) < 4.5} == {}


def test_styles_use_the_palette_only():
    """A style's ink on its ground is readable too."""
    for name in (*styles.STYLES, *styles.MONEY_STYLES):
        made = styles.style(name)
        ink, ground = made.get("font_color", styles.INK), made.get("bg_color", styles.PAPER)
        assert contrast(ink, ground) >= 4.5, name


HOSTILE = ["\x00a\x07b", "\ud800", "a\r\nb\u2028c", "\ufffe", "<r>x</r>", "x" * 40_000, "\U0001f3c0" * 20_000]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_is_made_harmless(text):
    safe = clean(text)
    safe.encode("utf-8")
    assert len(safe.encode("utf-16-le")) // 2 <= 32_767
    assert not any(ord(c) < 32 and c != "\n" for c in safe)
    assert not safe.startswith("<r>")


@given(st.text(max_size=80), st.integers(5, 40))
def test_text_fits_the_lines_it_is_given(text, room):
    assert lines(text, room) >= 1 + text.count("\n")
    assert width(fitted(text, room)) <= room


def test_lines_wrap_at_words():
    assert [lines("aa bb cc", room) for room in (8, 5, 2, 1)] == [1, 2, 3, 6]
    assert all(lines(a + b, 3) == 2 for a, b in product(("aaa",), (" b", "\nb", "b")))


def test_letters_are_as_wide_as_the_face_s_own():
    """Widths in digits of texts set in Liberation Sans, measured with its own metrics (computed with Pillow)."""
    measured = {
        "house range of what is plausible; common practice": 40.39,
        "Lifting mount, steps of 6 in, 4 1/2 in round": 32.99,
        "OVER rough strength": 17.20,
    }
    for text, digits in measured.items():
        assert digits - 0.02 <= width(text) <= digits * 1.03


@pytest.mark.parametrize(("room", "parted"), [(13, True), (14, False), (26, True), (40, False)])
def test_a_unit_is_not_broken(room, parted):
    assert parts_unit("Play moment at the ground [N m]", room) == parted


@settings(max_examples=300, deadline=None)
@given(st.floats(1e-4, 0.07), st.floats(0.05, 12.0))
def test_a_wall_or_depth_to_look_for_is_never_less_than_it_is(wall, depth):
    """Whatever was computed, and however it was rounded to the micrometre before it is shown."""
    kept = round(wall, 6), round(depth, 6)
    for feet, unit in ((True, 0.0254), (False, 0.001)):
        shown = float(show.wall_to_look_for(kept[0], feet).split()[0]) * unit
        assert wall <= shown < wall + (0.0051 * unit if feet else 0.102 * unit) + 2e-6
    assert depth <= float(show.depth(kept[1], False).split()[0]) / 1000 < depth + 0.01001
    inches = [int(n) for n in re.findall(r"\d+", show.depth(kept[1], True))]
    feet_in = inches if "ft" in show.depth(kept[1], True) else [0, *inches]
    assert depth <= (feet_in[0] * 12 + sum(feet_in[1:])) * 0.0254 < depth + 0.0255


@pytest.mark.parametrize(
    ("steps", "up", "down", "nearest"),
    [(10, 10, 10, 10), (10.0003, 10, 10, 10), (10.0008, 11, 10, 10), (9.9992, 10, 9, 10), (10.4995, 11, 10, 10),
     (10.5, 11, 10, 11), (-10.4995, -10, -11, -10), (-10.5, -10, -11, -11), (0, 0, 0, 0)],
)  # fmt: skip
def test_a_length_in_whole_sixteenths(steps, up, down, nearest):
    """What rounding to the micrometre may have taken, three ten-thousandths of a sixteenth, is made good, and no more."""
    found = [in_steps(steps * 0.0015875, 0.0015875, way) for way in (UP, DOWN, NEAREST)]
    assert found == [up, down, nearest]
