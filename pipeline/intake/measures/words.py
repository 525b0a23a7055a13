"""Words beside a number: passed over, casting doubt, or changing what the number means. Three lists."""

from __future__ import annotations


def _words(text: str) -> tuple[str, ...]:
    return tuple(w.strip() for w in text.split("|"))


PASSED_OVER: dict[str, tuple[str, ...]] = {
    "length": _words(
        "od|o.d|o/d|outside|outer|outside diameter|outer diameter|outside dia|dia|diam|diameter|Ø|outside width|wide|width|"
        "across|tall|high|height|long|length|deep|depth|thick|thickness|thk|wall|wall thickness|wt|w.t|above ground|above grade|"
        "above ground level|above the ground|above existing ground|post|pole|tube|tubing|exactly|exact|measured|linear|agl|a.g.l"
    ),
    "angle": _words("slope|lean|leaning|tilt|out of plumb|from plumb|from vertical|off plumb|off vertical"),
    "speed": _words(
        "v|wind|gust|gusts|wind speed|ultimate|ult|vult|design|basic|design wind speed|basic wind speed|design wind|"
        "3-second gust|3 second gust|3-sec gust|3-sec. gust|3 sec gust|3 sec. gust|3 s gust|3s gust|3-s gust"
    ),
    "mass": _words("mass|weight|weighs|each|ea"),
}
"""Words that say what was measured, by kind; they change nothing."""

LETTERS = ("h", "w", "l", "d", "t")
"""Letters that name a dimension before an equals sign or after a unit: `H = 8.5 ft`, `H: 8 ft`, `72 in W`."""

SHAPE_WORDS = _words("square|sq|round post|round pole|round tube|round tubing|square tube|square tubing|square post|sq tube")
"""Words beside a post's size that tell its shape, which another column asks for."""

ROUND_WORDS = _words("circumference|circ|circumf|around|girth|all round|all around|tape round")
"""Words for a size taken round the post."""

DOUBT = _words(
    "about|approx|approximately|ca|c|circa|roughly|around|est|estimate|estimated|maybe|perhaps|nearly|almost|over|under|"
    "at least|at most|less than|more than|min|max|up to|or|ish|probably|guess|say|unsure|not sure|plus or minus|"
    "give or take|nominal|nom|+/-|+-|±|~|≈|≃|≅|?|<|>|≤|≥"
)
"""Words and signs that cast doubt on a number."""

CHANGING: dict[str, str] = {
    **dict.fromkeys(_words("id|i.d|inside|inner|bore"), "an inside size"),
    **dict.fromkeys(_words("circumference|circ|circumf|girth|around"), "a length round the post"),
    **dict.fromkeys(_words("ga|gauge|gage"), "a gauge number"),
    **dict.fromkeys(_words("below|lower"), "a level below"),
    **dict.fromkeys(_words("radius|r"), "a radius"),
    "pipe": "a pipe's name, which is not its outside size",
    "round": "a round post or a length round the post",
}
"""Words that change what the number means, and into what."""

RANGE = _words("to|through|thru|till|between|..|…")
"""Words between two ends of a range."""
