"""A heading that is no known phrase, by its words: all of them must be about one column, or change nothing."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold, stem
from schemas.heading_phrases import OF_THIS_KIND, OUTSIDE, PIPES, REMARKS, WHO_REMARKS
from schemas.heading_words import (
    ALONE_SAYS_TOO_LITTLE,
    AROUND,
    ASSETS,
    BESIDE_AROUND,
    BOARD_WORDS,
    CODED_PLACES,
    CODES,
    COMPOUND,
    COUNTED,
    DESCRIPTIONS,
    FAINT_PLACES,
    FREE_TEXT,
    FROM_GROUND,
    GOALS,
    GOALS_COUNTED,
    HELD,
    IN_COMPOUNDS,
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
    GROUNDS_TO_STAND_ON,
    INCHES,
    NOMINAL,
    SHAPE_THAT_IT_IS_IN,
    SIZE_OF_PIPE,
    STANDS_UP,
    TAKEN_OUTSIDE,
    THICKNESS,
    UP_FROM,
    UP_TO_THE_TOP,
)

_MOST = 14  # words of a heading
_SMALL = re.compile(r"\b(?:[dl]|qu|dell|all|dall|nell|sull|un)['’]|(?<!\w)[àèéÀÈÉ](?!\w)", re.IGNORECASE)
"""Articles and small words that no post is called: `l'altezza`, `à`."""
_ARTICLES = re.compile(
    r"\b[ao]s? (?=(?:topo|piso|ch[ãa]o|solo|terreno|pavimento|punta|ponta|tope|partir|la|cima)\b)", re.IGNORECASE
)
"""Articles before a place: `até o topo`, `del piso a la punta`; alone they name a side of a court."""
_OUTSIDE_IT = re.compile(r"\best\.(?=\W|$)", re.IGNORECASE)
"""`Diam. est.`: esterno."""
_OVER = re.compile(r"\bs/ ?(?=\w{3})", re.IGNORECASE)
"""`s/suelo`: over the ground."""
_DOTTED = re.compile(r"(?<!\w)(?:[A-Za-z]\.){2,4}(?!\w)")  # `G.L.`
_COMPOUND = re.compile(COMPOUND)
_NUMBER_OF = re.compile(r"\W*(?:no|nr|n[°º]|n(?=_|\.)|num|number|#)(?:\b|_)", re.IGNORECASE)
_COUNT_OF_GOALS = re.compile(
    rf"(?:#|no|nr|nro|nb|nbr|nbre|n[°º]|n\.º|num|núm|number|count|qty|quantity|how many|anz|anzahl(?: der)?|cant|cantidad|"
    rf"qtde?|quantidade|quantit[àa]|q\.?tà|nombre|qté|cu[áa]nt[oa]s|quant[oaie]s?|combien|total|wie ?viele)\.?"
    rf"\s*(?:of|de|di|des)?\s*(?:basketball\s+)?(?:{GOALS_COUNTED})",
    re.IGNORECASE,
)
_OF_THIS_KIND = re.compile(OF_THIS_KIND, re.IGNORECASE)
_SPORT = re.compile(rf"\b(?:{SPORT})\b", re.IGNORECASE)
_PLURAL = re.compile(rf"\b(?:{PLURALS})\b", re.IGNORECASE)


_SHAPE_IT_IS_IN = re.compile(SHAPE_THAT_IT_IS_IN, re.IGNORECASE)


def composed(heading: str) -> tuple[str, bool] | None:
    """The one column that all words of a heading are about, and whether it names the post; None where any says more.

    `Top of post above grade` is the height: above the ground stands nothing else of a post.
    """
    if _SHAPE_IT_IS_IN.fullmatch(heading.strip()):
        return "condition", True
    words = words_of(_SPORT.sub(" ", heading))
    if len(words) == 1 and words <= _folded(MADE_OF["old_fittings"][0]) - _folded(ALONE_SAYS_TOO_LITTLE):
        return "old_fittings", False
    if words & _folded(CODED_PLACES) and words & _folded(CODES) and words <= _folded(CODED_PLACES | CODES | OF_A_PLACE):
        return "site_code", True
    if where := _of_a_site(words):
        return where
    if _how_it_is_held(words):
        return "old_fittings", True
    if says_around(heading) or _how_thick_outside(words):
        return "post_size", True
    if says_nominal(heading):
        return "post_size", True
    if _COUNT_OF_GOALS.fullmatch(heading_unit(heading)[0].strip()):
        return "quantity", True
    if not 1 < len(words) <= _MOST:
        return None
    if words & _folded(REMARKS) and words <= _folded(REMARKS | WHO_REMARKS | SAY_NOTHING):
        return "notes", True
    if words & _folded(OUTSIDE):
        words -= _folded(PIPES)
    plural = _PLURAL.search(heading.replace("_", " "))
    if plural and words - _folded(POST_WORDS) <= _folded(SAY_NOTHING | COUNTED) and words & _folded(COUNTED):
        return "quantity", True
    post = bool(words & _folded(POST_WORDS))
    rest = words - _folded(POST_WORDS)
    if plural and rest <= _folded(SAY_NOTHING | WHICH | NUMBERS):  # `No. Poles` counts them
        return ("quantity", True) if _NUMBER_OF.match(heading) else None
    if words & _folded(ASSETS) and words & _folded(NUMBERS) and words <= _folded(ASSETS | NUMBERS | OWNERS):
        return "post_code", True
    if post and rest <= _folded(SAY_NOTHING | WHICH | NUMBERS) and rest & _folded(WHICH | NUMBERS):
        return "post_code", True
    about = _about(rest)
    if of_two_grounds(words):
        return None
    if not about and _stands_up(words):
        said = SAY_NOTHING | UP_FROM | GROUNDS_TO_STAND_ON | STANDS_UP | MADE_OF["post_height"][1]
        return ("post_height", post) if rest <= _folded(said) else None
    if not about and words & _folded(OUTSIDE) and words <= _folded(OUTSIDE | MEASURES | POST_WORDS | SAY_NOTHING):
        return "post_size", False  # `measured outside`
    if len(about) != 1:
        return None
    telling, beside = MADE_OF[about[0]]
    beside = beside | MEASURES if about != ["post_size"] else beside
    if about == ["post_height"] and (post or rest & _folded(FROM_GROUND)):
        beside = beside | WHOLE
    return (about[0], post) if rest <= _folded(telling | beside | SAY_NOTHING) else None


@lru_cache(maxsize=4096)
def says_around(heading: str) -> bool:
    """Whether a heading says the way round the post, and nothing else: `Around the pole`."""
    words = words_of(heading)
    return (
        len(words) > 1 and bool(words & _folded(AROUND)) and words <= _folded(AROUND | BESIDE_AROUND | POST_WORDS | SAY_NOTHING)
    )


@lru_cache(maxsize=4096)
def says_nominal(heading: str) -> bool:
    """Whether a heading says a pipe's nominal size, and nothing else: `Nom. pipe size (NPS)`."""
    words = words_of(heading)
    named = words & _folded(NOMINAL) and (words & _folded(SIZE_OF_PIPE) or words & _folded(frozenset(("nps", "ips"))))
    return bool(named) and words <= _folded(NOMINAL | SIZE_OF_PIPE | POST_WORDS | SAY_NOTHING | INCHES)


def of_two_grounds(words: frozenset[str]) -> bool:
    """Whether one kind of ground may be what stands above another: `Height of concrete above ground`."""
    return len(words & _folded(GROUNDS_TO_STAND_ON)) > 1


def _stands_up(words: frozenset[str]) -> bool:
    """`Sticks out of the dirt`, `Up from blacktop`: how far something stands up from one kind of ground."""
    one_ground = len(words & _folded(GROUNDS_TO_STAND_ON)) == 1
    to_the_top = words & _folded(frozenset(("from", "to", "2"))) and words & _folded(UP_TO_THE_TOP)
    return one_ground and bool(words & _folded(UP_FROM) or to_the_top)


def _how_thick_outside(words: frozenset[str]) -> bool:
    """`Grosor por fuera`, `Section ext.`: what would be a wall's thickness or a shape, taken outside, is the size."""
    told = bool(words & _folded(THICKNESS) and words & _folded(TAKEN_OUTSIDE))
    return told and words <= _folded(THICKNESS | TAKEN_OUTSIDE | BESIDE_OUTSIDE | POST_WORDS | SAY_NOTHING)


def _how_it_is_held(words: frozenset[str]) -> bool:
    """`Old board bolted or welded`: how a board that hangs on the post is held, and nothing else."""
    old = MADE_OF["old_fittings"][1]
    asked = bool(words & _folded(HELD) and words & _folded(BOARD_WORDS))
    return asked and words <= _folded(HELD | BOARD_WORDS | old | SAY_NOTHING | {"o", "u"})


def _about(words: frozenset[str]) -> list[str]:
    """Columns of which a telling word is there; `medida` beside another one says that it was measured."""
    about = [name for name, (telling, _) in MADE_OF.items() if words & _folded(telling)]
    measured = len(about) > 1 and not words & _folded(MADE_OF["post_size"][0] - MEASURES)
    return [name for name in about if name != "post_size"] if measured else about


def is_whole_height(heading: str) -> bool:
    """Whether a heading says a total height, and not of what: `Altura total`."""
    words = words_of(heading_unit(heading)[0])
    telling, beside = MADE_OF["post_height"]
    whole = bool(words & _folded(telling)) and bool(words & _folded(WHOLE))
    return whole and words <= _folded(telling | beside | WHOLE | SAY_NOTHING)


def nearly(heading: str) -> str:
    """The one needed column of which a heading has a telling word beside others; '' where it has none, or of several."""
    words = words_of(_SPORT.sub(" ", heading))
    about = _about(words)
    return about[0] if len(about) == 1 and about[0] in _NEEDED else ""


_NEEDED = ("post_shape", "post_size", "post_height")


def _of_a_site(words: frozenset[str]) -> tuple[str, bool] | None:
    """The site's name, where all words are about a ground; surely where one of them is a word for a name."""
    beside = SAY_NOTHING | PLACES | OF_A_PLACE | NAMES | WHICH
    about = words & _folded(PLACES) and words <= _folded(beside) and not words & _folded(KINDS | FREE_TEXT)
    return ("site_name", bool(words & _folded(NAMES))) if about else None


@lru_cache(maxsize=16384)
def words_of(heading: str) -> frozenset[str]:
    """The folded words of a heading, without a number in front."""
    plain = re.sub(
        r"^\s*\d{1,2}\s*[.):]\s*|['’]s\b",
        "",
        re.sub(r"\b[oO]\.\s?[dD]\b", "OD", _DOTTED.sub(lambda m: m[0].replace(".", ""), heading)),
    )
    plain = _OUTSIDE_IT.sub("esterno ", _ARTICLES.sub("", _SMALL.sub(" ", plain)))
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", _OVER.sub("sobre ", plain)).replace("_", " ")
    words = {fold(w) for w in re.findall(r"[^\W_]+", apart)} - {""}
    parts = {w: m for w in words if (m := _COMPOUND.fullmatch(w))}
    apart_again = {fold(p) for m in parts.values() for p in (m[1], IN_COMPOUNDS.get(m[2], m[2]))}
    return frozenset(stem(w) for w in (words - parts.keys()) | apart_again)


def as_plural(heading: str) -> str:
    """`Goal(s)` and `Poste/s` as the plural that they leave open."""
    return _OPEN_PLURAL.sub(r"\1\2", heading)


_OPEN_PLURAL = re.compile(r"(?<=[^\W\d_]{3})(?:\((s|es|n|en|e|x)\)|/(s)\b)", re.IGNORECASE)


def says_a_kind(heading: str) -> bool:
    """Whether a heading asks for the kind of post and nothing else: `What kind of pole`."""
    words = words_of(heading)
    rest = words - _folded(POST_WORDS)
    return len(words) > len(rest) and bool(rest & _folded(KINDS)) and rest <= _folded(SAY_NOTHING | KINDS)


def describes_a_site(heading: str) -> bool:
    """Whether a heading is over what a ground is called in words, beside its code: `SITE_DESC`, `Location description`."""
    words = words_of(heading)
    rest = words - _folded(DESCRIPTIONS)
    return rest != words and bool(rest) and rest <= _folded(PLACES | FAINT_PLACES | OF_A_PLACE)


def alike(heading: str) -> bool:
    """Whether a heading says that posts are alike: the number is then each row's."""
    return bool(words_of(heading) & _folded(MADE_OF["quantity"][0])) or _OF_THIS_KIND.search(heading) is not None


def counts(heading: str) -> bool:
    """Whether a heading has a word that counts, or posts or what stands on them in the plural."""
    return bool(words_of(heading) & _folded(COUNTED)) or posts_in_the_plural(heading) or goals_in_the_plural(heading)


def goals_in_the_plural(heading: str) -> bool:
    """Whether a heading is a word for what stands on posts, in the plural, and nothing else: `Hoops`, `Goal(s)`."""
    return re.fullmatch(GOALS_COUNTED, as_plural(heading_unit(heading)[0].strip()), re.IGNORECASE) is not None


def posts_in_the_plural(heading: str) -> bool:
    """Whether a heading speaks of posts in the plural."""
    return _PLURAL.search(heading.replace("_", " ")) is not None


@lru_cache(maxsize=4096)
def speaks_of_posts(text: str) -> bool:
    """Whether a text is of the game or of a post, and of nothing else: `Basketball post`, `BB goal`."""
    words = words_of(text)
    rest = {w for w in words if not re.match(OF_THE_GAME, w)}
    about = len(rest) < len(words) or bool(rest & _folded(POST_WORDS | GOALS))
    return about and rest <= _folded(POST_WORDS | SAY_NOTHING | GOALS)


def names_a_post(heading: str) -> bool:
    """Whether a heading has a word for a post."""
    return bool(words_of(heading) & _folded(POST_WORDS))


def is_about_a_board(heading: str) -> bool:
    """Whether a heading has a word for a board, a ring or a hoop."""
    return bool(words_of(heading) & _folded(BOARD_WORDS | {"hoop", "hoops", "goal", "goals", "basket"}))


@cache
def _folded(words: frozenset[str]) -> frozenset[str]:
    return frozenset(stem(fold(w)) for w in words)
