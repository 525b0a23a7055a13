"""A heading that is no known phrase, by its words: all of them must be about one column, or change nothing."""

from __future__ import annotations

import re
from functools import lru_cache

from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.lay_headings import asks_what_shape_it_is_in, of_two_grounds, says_around, says_nominal, stands_up
from pipeline.intake.survey.words_of_headings import folded_words, words_of
from schemas.heading_phrases import (
    ESTIMATED,
    IN_QUESTIONS,
    OF_THIS_KIND,
    OTHER_NUMBERS,
    OUTSIDE,
    PIPES,
    REMARKS,
    RINGS,
    THERE,
    WHAT_THERE_IS,
    WHO_REMARKS,
)
from schemas.heading_words import (
    ALONE_SAYS_TOO_LITTLE,
    ASSETS,
    BOARD_WORDS,
    CODED_PLACES,
    CODES,
    COUNTED,
    DESCRIPTIONS,
    FAINT_PLACES,
    FREE_TEXT,
    FROM_GROUND,
    GOALS,
    GOALS_COUNTED,
    HELD,
    KINDS,
    MADE_OF,
    MEASURES,
    NAMES,
    NUMBERS,
    OF_A_PLACE,
    OF_THE_GAME,
    OWNERS,
    PLACES,
    PLURALS,
    POST_WORDS,
    SAY_NOTHING,
    SPORT,
    WHICH,
    WHOLE,
)
from schemas.lay_headings import (
    BESIDE_OUTSIDE,
    CROSSWISE,
    GROUNDS_TO_STAND_ON,
    OF_A_PIPE,
    STANDS_UP,
    TAKEN_OUTSIDE,
    THICKNESS,
    UP_FROM,
    WIDTHS,
)

_MOST = 14  # words of a heading
_NUMBER_OF = re.compile(r"\W*(?:no|nr|nro|n\.º|n\.ro|núm|n[°º]|n(?=_|\.)|num|number|#)(?:\b|_)", re.IGNORECASE)
_COUNT_OF_GOALS = re.compile(
    rf"(?:#|no|nr|nro|nb|nbr|nbre|n[°º]|n\.º|num|núm|n[úu]mero|number|count|qty|quantity|how many|anz|anzahl(?: der)?|"
    rf"cant|cantidad|qtde?|quantidade|quantit[àa]|q\.?tà|nombre|qté|cu[áa]nt[oa]s|quant[oaie]s?|combien|total|wie ?viele)\.?"
    rf"\s*(?:of|de|di|des)?\s*(?:basketball\s+)?(?:{GOALS_COUNTED})",
    re.IGNORECASE,
)
_OF_THIS_KIND = re.compile(OF_THIS_KIND, re.IGNORECASE)
_SPORT = re.compile(rf"\b(?:{SPORT})\b", re.IGNORECASE)
_PLURAL = re.compile(rf"\b(?:{PLURALS})\b", re.IGNORECASE)


def composed(heading: str) -> tuple[str, bool] | None:
    """The one column that all words of a heading are about, and whether it names the post; None where any says more.

    `Top of post above grade` is the height: above the ground stands nothing else of a post.
    """
    if asks_what_shape_it_is_in(heading):
        return "condition", True
    words = words_of(_SPORT.sub(" ", heading))
    if heading.rstrip(" *)").endswith("?"):
        words -= folded_words(IN_QUESTIONS)
    if len(words) == 1 and words <= folded_words(MADE_OF["old_fittings"][0]) - folded_words(ALONE_SAYS_TOO_LITTLE):
        return "old_fittings", False
    coded = words & folded_words(CODED_PLACES) and words & folded_words(CODES)
    if coded and words <= folded_words(CODED_PLACES | CODES | OF_A_PLACE):
        return "site_code", True
    if where := _of_a_site(words):
        return where
    if _how_it_is_held(words):
        return "old_fittings", True
    if (says_around(heading) and not words <= {"wrap", "wrapp", "wrapped"}) or _how_thick_outside(words):
        return "post_size", True
    if says_nominal(heading):
        return "post_size", True
    if _COUNT_OF_GOALS.fullmatch(heading_unit(heading)[0].strip()):
        return "quantity", True
    if not 1 < len(words) <= _MOST:
        return None
    if words & folded_words(REMARKS) and words <= folded_words(REMARKS | WHO_REMARKS | SAY_NOTHING):
        return "notes", True
    if words & folded_words(OUTSIDE):
        words -= folded_words(PIPES)
    plural = _PLURAL.search(heading.replace("_", " "))
    counted = folded_words(SAY_NOTHING | COUNTED | MADE_OF["quantity"][0])
    if plural and words - folded_words(POST_WORDS) <= counted and words & folded_words(COUNTED):
        return "quantity", True
    post = bool(words & folded_words(POST_WORDS))
    rest = words - folded_words(POST_WORDS)
    if plural and rest & folded_words(THERE) and rest <= folded_words(SAY_NOTHING | NUMBERS | COUNTED | THERE):
        return ("quantity", True) if _NUMBER_OF.match(heading) or rest & folded_words(COUNTED) else None
    if plural and rest <= folded_words(SAY_NOTHING | WHICH | NUMBERS):  # `No. Poles` counts them
        return ("quantity", True) if _NUMBER_OF.match(heading) else None
    if words & folded_words(ASSETS) and words & folded_words(NUMBERS) and words <= folded_words(ASSETS | NUMBERS | OWNERS):
        return "post_code", True
    if post and rest <= folded_words(SAY_NOTHING | WHICH | NUMBERS) and rest & folded_words(WHICH | NUMBERS):
        return "post_code", True
    if not post and _of_a_ring(words):
        return "ring_heights", True
    about = _about(rest)
    if of_two_grounds(words):
        return None
    if not about and stands_up(words):
        said = SAY_NOTHING | UP_FROM | GROUNDS_TO_STAND_ON | STANDS_UP | MADE_OF["post_height"][1]
        return ("post_height", post) if rest <= folded_words(said) else None
    if not about and words & folded_words(OUTSIDE) and words <= folded_words(OUTSIDE | MEASURES | POST_WORDS | SAY_NOTHING):
        return "post_size", False  # `measured outside`
    if len(about) != 1:
        return None
    telling, beside = MADE_OF[about[0]]
    beside = beside | OF_A_PIPE if about == ["post_size"] and "od" in rest else beside
    beside = beside | MEASURES if about != ["post_size"] else beside
    if about == ["post_height"] and (post or rest & folded_words(FROM_GROUND)):
        beside = beside | WHOLE
    return (about[0], post) if rest <= folded_words(telling | beside | SAY_NOTHING) else None


def _how_thick_outside(words: frozenset[str]) -> bool:
    """`Grosor por fuera`, `Section ext.`: what would be a wall's thickness or a shape, taken outside, is the size."""
    told = bool(words & folded_words(THICKNESS) and words & folded_words(TAKEN_OUTSIDE))
    return told and words <= folded_words(THICKNESS | TAKEN_OUTSIDE | BESIDE_OUTSIDE | POST_WORDS | SAY_NOTHING)


def _of_a_ring(words: frozenset[str]) -> bool:
    """`Hauteur panier`, `Altura canasta`: how high the ring is."""
    telling = MADE_OF["post_height"][0]
    there = words & folded_words(telling) and words & folded_words(RINGS)
    return (
        bool(there)
        and not words & folded_words(_ASKING)
        and words <= folded_words(telling | RINGS | FROM_GROUND | SAY_NOTHING | _OVER_GROUND)
    )


_ASKING = frozenset(("how", "what", "which", "wie", "cuál", "qué", "quel", "quelle", "qual", "quale", "che", "quanto", "combien"))
_OVER_GROUND = frozenset(("above", "over", "sobre", "desde", "dessus", "au", "über", "ab", "sopra", "dal", "da", "acima"))


def _how_it_is_held(words: frozenset[str]) -> bool:
    """`Old board bolted or welded`: how a board that hangs on the post is held, and nothing else."""
    old = MADE_OF["old_fittings"][1]
    asked = bool(words & folded_words(HELD) and words & folded_words(BOARD_WORDS))
    return asked and words <= folded_words(HELD | BOARD_WORDS | old | SAY_NOTHING | {"o", "u"})


def _about(words: frozenset[str]) -> list[str]:
    """Columns of which a telling word is there; `medida` beside another one says that it was measured."""
    about = [name for name, (telling, _) in MADE_OF.items() if words & folded_words(telling)]
    measured = len(about) > 1 and not words & folded_words(MADE_OF["post_size"][0] - MEASURES)
    if about == ["post_size", "post_shape"] and not words & folded_words(MADE_OF["post_shape"][0] - CROSSWISE):  # `Section OD`
        return ["post_size"] if words & folded_words(WIDTHS) else about
    return [name for name in about if name != "post_size"] if measured else about


def is_whole_height(heading: str) -> bool:
    """Whether a heading says a total height, and not of what: `Altura total`."""
    words = words_of(heading_unit(heading)[0])
    telling, beside = MADE_OF["post_height"]
    whole = bool(words & folded_words(telling)) and bool(words & folded_words(WHOLE))
    return whole and words <= folded_words(telling | beside | WHOLE | SAY_NOTHING)


def nearly(heading: str) -> str:
    """The one needed column of which a heading has a telling word beside others; '' where it has none, or of several."""
    words = words_of(_SPORT.sub(" ", heading))
    about = _about(words)
    return about[0] if len(about) == 1 and about[0] in _NEEDED else ""


_NEEDED = ("post_shape", "post_size", "post_height")


def _of_a_site(words: frozenset[str]) -> tuple[str, bool] | None:
    """The site's name, where all words are about a ground; surely where one of them is a word for a name."""
    beside = SAY_NOTHING | PLACES | OF_A_PLACE | NAMES | WHICH
    if "ground" in words and words & {"up", "in", "top", "out"}:  # `Ground up`, `In ground?`
        return None
    about = words & folded_words(PLACES) and words <= folded_words(beside) and not words & folded_words(KINDS | FREE_TEXT)
    return ("site_name", bool(words & folded_words(NAMES))) if about else None


def is_estimated(heading: str) -> bool:
    """Whether a heading says that what stands below it is an estimate: `Approximate height`, `Height (est.)`."""
    return _ESTIMATED.search(heading) is not None


def without_estimate(heading: str) -> str:
    """A heading without the word for an estimate."""
    return " ".join(_ESTIMATED.sub(" ", heading).replace("()", " ").split())


_ESTIMATED = re.compile(rf"\b(?:{ESTIMATED})(?!\w)\.?,?", re.IGNORECASE)


def as_plural(heading: str) -> str:
    """`Goal(s)` and `Poste/s` as the plural that they leave open."""
    return _OPEN_PLURAL.sub(r"\1\2", heading)


_OPEN_PLURAL = re.compile(r"(?<=[^\W\d_]{3})(?:\((s|es|n|en|e|x)\)|/(s)\b)", re.IGNORECASE)


def says_a_kind(heading: str) -> bool:
    """Whether a heading asks for the kind of post and nothing else: `What kind of pole`."""
    words = words_of(heading)
    rest = words - folded_words(POST_WORDS)
    return len(words) > len(rest) and bool(rest & folded_words(KINDS)) and rest <= folded_words(SAY_NOTHING | KINDS)


def says_what_it_is(heading: str) -> bool:
    """Whether a heading is over what stands there in free words: `What is there`, `Existing post`, `Item description`."""
    words = words_of(heading)
    told = words & folded_words(DESCRIPTIONS | KINDS | WHAT_THERE_IS)
    return bool(told) and words <= folded_words(SAY_NOTHING | POST_WORDS | KINDS | DESCRIPTIONS | WHAT_THERE_IS)


def describes_a_site(heading: str) -> bool:
    """Whether a heading is over what a ground is called in words, beside its code: `SITE_DESC`, `Location description`."""
    words = words_of(heading)
    rest = words - folded_words(DESCRIPTIONS)
    return rest != words and bool(rest) and rest <= folded_words(PLACES | FAINT_PLACES | OF_A_PLACE)


def alike(heading: str) -> bool:
    """Whether a heading says that posts are alike: the number is then each row's."""
    return bool(words_of(heading) & folded_words(MADE_OF["quantity"][0])) or _OF_THIS_KIND.search(heading) is not None


def counts(heading: str) -> bool:
    """Whether a heading has a word that counts, or posts or what stands on them in the plural."""
    return bool(words_of(heading) & folded_words(COUNTED)) or posts_in_the_plural(heading) or goals_in_the_plural(heading)


def goals_in_the_plural(heading: str) -> bool:
    """Whether a heading is a word for what stands on posts, in the plural, and nothing else: `Hoops`, `Goal(s)`."""
    return re.fullmatch(GOALS_COUNTED, as_plural(heading_unit(heading)[0].strip()), re.IGNORECASE) is not None


def counts_other_things(heading: str) -> bool:
    """Whether a heading has a word for what is numbered or counted and is no post: `Court`, `Priority`, `Nets`."""
    return bool(words_of(heading) & folded_words(OTHER_NUMBERS))


def posts_in_the_plural(heading: str) -> bool:
    """Whether a heading speaks of posts in the plural."""
    return _PLURAL.search(heading.replace("_", " ")) is not None


@lru_cache(maxsize=4096)
def speaks_of_posts(text: str) -> bool:
    """Whether a text is of the game or of a post, and of nothing else: `Basketball post`, `BB goal`."""
    words = words_of(text)
    rest = {w for w in words if not re.match(OF_THE_GAME, w)}
    about = len(rest) < len(words) or bool(rest & folded_words(POST_WORDS | GOALS))
    return about and rest <= folded_words(POST_WORDS | SAY_NOTHING | GOALS | BOARD_WORDS)


def names_a_post(heading: str) -> bool:
    """Whether a heading has a word for a post."""
    return bool(words_of(heading) & folded_words(POST_WORDS))


def is_a_fitting(text: str) -> bool:
    """Whether a text names a thing that hangs on a post: a board, a ring, a bracket."""
    return is_about_a_board(text) or bool(words_of(text) & folded_words(MADE_OF["old_fittings"][0]))


def is_about_a_board(heading: str) -> bool:
    """Whether a heading has a word for a board, a ring or a hoop."""
    return bool(words_of(heading) & folded_words(BOARD_WORDS | {"hoop", "hoops", "goal", "goals", "basket"}))
