"""Words of the survey's lists, as people say them; headings of yes and no; headings that are not known."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.intake.survey.headings import claim
from pipeline.intake.survey.list_words import combined, read_word, rules_out
from pipeline.intake.survey.near_headings import may_mean
from pipeline.intake.survey.spellings import suggestions
from schemas.languages import LANGUAGES, SPELLINGS
from schemas.survey import SURVEY
from schemas.yes_no import YES_NO

READ = """
condition|sound: good, Good, excellent, Excellent., new, very good, like new, bueno, bon état, guter Zustand, gut, buono
condition|sound: Overall good
condition|surface rust: light rust, some surface rust, Flugrost, óxido superficial
condition|unknown: unknown, no data, not inspected, sin datos
condition|corroded: heavily rusted, rusted through
material|steel: steel, galv, Galvanized Steel, steel (painted), galv. steel pipe, acero, Stahl verzinkt, acciaio, aço
material|steel: acier galvanisé
material|other: stainless steel, Stainless, concrete, cast iron, fiberglass, fibreglass, Edelstahl, béton
material|unknown: metal, Metal, unk, métal
old_fittings|removable: bolted, Bolted on, comes off, unbolts, Yes - bolted, old board bolted on, atornillado, boulonné
old_fittings|removable: geschraubt
old_fittings|fixed: Y - welded, Welded - 4 tabs, welded clevis, con placa soldada, alte Lasche angeschweißt, staffa saldata
old_fittings|fixed: welded lug, some welded tabs near top, there are two welded ears
old_fittings|fixed: welded, Welded on, yes - welded, old bracket is welded on, soldado, soudé, angeschweißt, saldato
old_fittings|none: none, nothing, bare, no, No, keine, aucune, ninguno, nein
post_line|straight: straight, Straight., straight up, recto, droit, gerade, dritto, reto, straight post
post_line|gooseneck: Gooseneck (4 ft extension), curved w/ extension arm, Straight then bends over court, offset arm
post_line|gooseneck: gooseneck, goose neck, curved, Schwanenhals, col de cygne, collo d'oca
post_line|bent: bent, torcido, plié, krumm
post_shape|round: Round, rnd, round tube, redondo, rond, tondo, round steel tube
old_fittings|fixed: saldate, saldati, soudées, welded tabs x2
old_fittings|removable: imbullonate, boulonnées
post_shape|square: quadrate, sq, square tube, cuadrado, carré, quadratisch, quadrato
post_base|cast in: concrete, set in concrete, einbetoniert, scellé, in concrete footing
post_base|base plate: bolted down, base plate, platine, placa base
measured_with|calipers: calipers, Vernier, pied à coulisse, Messschieber, paquímetro
height_measured_with|tape: tape, tape measure, cinta métrica, Maßband
"""

NOT_READ = """
condition: fair, poor, Fair, OK, ok, critical, bad, rusty, good?, not good, good but rusty, "Fair, some rust"
condition: sound and cracked, fair/poor, 3, A-
material: iron, steel?, steel and wood, not steel, steel/aluminium, something
old_fittings: board removed, no brackets, no welded lugs, yes, not welded, bolted and welded, welded?, bolted but rusted solid
old_fittings: 0.1, 2 brackets, some, a net, brackets, no welds bolted
post_line: not straight, straight?, straight but leaning, bent or straight, leaning, ok
post_shape: oval, round?, octagonal, round and square, hex, D-shaped
post_base: dirt, asphalt, unsure maybe concrete, not concrete
"""


def cases(table: str) -> list[tuple[str, str]]:
    rows = []
    for line in table.strip().splitlines():
        head, _, words = line.partition(": ")
        for word in words.replace('"Fair, some rust"', "Fair; some rust").split(", "):
            rows.append((head, word))
    return rows


@pytest.mark.parametrize(("head", "text"), cases(READ))
def test_words_are_read(head: str, text: str) -> None:
    name, _, value = head.partition("|")
    found = read_word(name, text)
    assert found is not None
    assert found.value == value


@pytest.mark.parametrize(("name", "text"), cases(NOT_READ))
def test_words_are_not_read(name: str, text: str) -> None:
    assert read_word(name, text) is None


def test_several_words_that_say_the_same() -> None:
    found = read_word("old_fittings", "Yes - bolted, comes off")
    assert found is not None
    assert (found.value, found.how) == ("removable", "words")
    own = read_word("condition", " Sound ")
    assert own is not None
    assert own.how == ""


ASKED = [
    ("Straight?", "post_line", "yes", "straight"), ("Straight?", "post_line", "no", "unknown"),
    ("Straight?", "post_line", "bent", "bent"),
    ("Bent (Y/N)", "post_line", "Y", "bent"), ("Bent?", "post_line", "n", "unknown"),
    ("Gooseneck?", "post_line", "YES", "gooseneck"),
    ("Gooseneck?", "post_line", "no", "unknown"),
    ("Welded parts?", "old_fittings", "yes", "fixed"),
    ("Welded parts?", "old_fittings", "no", "unknown"),
    ("Anything welded to the pole?", "old_fittings", "Yes (2 brackets)", "fixed"),
    ("Pole is square", "post_shape", "yes", "square"),
    ("Straight?", "post_line", "yes mostly", None),
    ("Straight?", "post_line", "No - it curves over", "gooseneck"),
    ("Old boards on?", "old_fittings", "yes", "unknown"),
    ("Old Backboard Attached?", "old_fittings", "no", "unknown"),
    ("Old Backboard Attached?", "old_fittings", "Yes - bolted", "removable"),
    ("Anything attached?", "old_fittings", "no", "none"), ("Anything attached?", "old_fittings", "yes", "unknown"),
    ("Cracked?", "condition", "x", "cracked"), ("Round?", "post_shape", "yes", "round"), ("Round?", "post_shape", "no", None),
    ("Fixations soudées (O/N)", "old_fittings", "O", "fixed"), ("Soldado (S/N)", "old_fittings", "S", "fixed"),
    ("Old fittings?", "old_fittings", "no", "none"), ("Old fittings?", "old_fittings", "yes", None),
    ("Straight?", "post_line", "sí", "straight"), ("Straight?", "post_line", "nein", "unknown"),
    ("Strength cleared", "strength_cleared", "yes", "yes"), ("Straight?", "post_line", "not really", None),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "name", "text", "value"), ASKED)
def test_the_heading_says_what_yes_means(heading: str, name: str, text: str, value: str | None) -> None:
    known = claim(heading)
    assert known is not None
    assert known.name == name
    found = read_word(name, text, heading)
    assert (found.value if found else None) == value


@pytest.mark.parametrize(
    ("name", "text"),
    [("material", "steel or aluminium"), ("old_fittings", "bolted and welded"), ("condition", "good but cracked")],
)
def test_of_two_words_neither_is_suggested(name: str, text: str) -> None:
    assert suggestions(name, text) == ()


def test_every_yes_no_question_is_claimed_and_answered_in_its_columns_words() -> None:
    for q in YES_NO:
        values = {*SURVEY.column(q.column).values, ""}
        assert {q.yes, q.no} <= values
        for heading in q.headings:
            known = claim(f"{heading}?")
            assert known is not None, heading
            assert known.name == q.column


def test_every_language_has_a_heading_for_every_column_and_a_word_for_every_value() -> None:
    for language in LANGUAGES[1:]:
        assert set(language.headings) == set(SURVEY.names), language.code
        for name, values in language.words.items():
            assert set(values) == set(SURVEY.column(name).values), (language.code, name)
            for value, words in values.items():
                for word in words.split("|"):
                    found = read_word(name, word)
                    assert found is not None, (language.code, name, word)
                    assert found.value == value
        for name, words in language.headings.items():
            for heading in words.split("|"):
                known = claim(heading)
                assert known is not None, (language.code, heading)
                assert known.name == name


def test_the_sellers_words_are_read_and_said() -> None:
    seller = {"condition": {"fair": "surface rust"}}
    found = read_word("condition", "Fair", seller=seller)
    assert found is not None
    assert (found.value, found.how) == ("surface rust", "seller_words")
    assert read_word("material", "Fair", seller=seller) is None


@given(st.text(st.sampled_from("boltedwn ,-?yes"), max_size=20), st.sampled_from(sorted(SPELLINGS)))
def test_any_text_is_a_value_of_the_list_or_nothing(text: str, name: str) -> None:
    found = read_word(name, text)
    assert found is None or found.value in SURVEY.column(name).values


NEAR = [
    ("Post conditon", (), ("condition",)), ("Height above grond", (), ("post_height",)), ("Lean (1:n)", (), ("lean",)),
    ("Bendy bits", ("straight", "gooseneck", "straight"), ("post_line",)), ("How bad", ("cracked", "surface rust"),
    ("condition",)),
    ("Photo", ("IMG_1", "IMG_2"), ()), ("Board material", ("steel", "wood"), ()), ("Zone", ("3", "4"), ()),
    ("Paid", ("yes", "no"), ()),
    ("Remarks by coach on pole height", (), ("post_height",)),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "cells", "columns"), NEAR)
def test_what_an_unknown_heading_may_mean(heading: str, cells: tuple[str, ...], columns: tuple[str, ...]) -> None:
    assert claim(heading) is None
    assert may_mean(heading, cells)[: len(columns) or 1] == columns


TOGETHER = [
    ("post_line", "Straight? no; Gooseneck? yes", "gooseneck"), ("post_line", "Straight? yes; Gooseneck? no", "straight"),
    ("post_line", "Straight? no; Bent? no", "unknown"), ("post_line", "Straight? yes; Bent? yes", None),
    ("post_line", "Straight? no; Bent? no; Tapered? no", "gooseneck"),
    ("old_fittings", "Welded parts? no; Anything attached? no", "none"),
    ("old_fittings", "Welded parts? yes; Anything attached? yes", "fixed"),
    ("old_fittings", "Welded parts? no; Anything attached? yes", "removable"),
    ("old_fittings", "Welded parts? yes; Anything attached? no", None),
    ("old_fittings", "Welded parts? no; Old boards on? no", "unknown"),
    ("post_shape", "Round? no; Square? yes", "square"), ("condition", "Cracked? no; Loose? no", "unknown"),
    ("condition", "Cracked? yes; Rust? yes", "cracked"), ("post_line", "Straight? maybe; Bent? no", None),
]  # fmt: skip


@pytest.mark.parametrize(("name", "said", "value"), TOGETHER)
def test_several_questions_about_one_column(name: str, said: str, value: str | None) -> None:
    answers = [(f"{heading}?", text.strip()) for heading, _, text in (part.partition("?") for part in said.split("; "))]
    assert combined(name, answers) == value


@pytest.mark.parametrize(
    ("text", "value"), [("2 - Good", "sound"), ("1: Excellent", "sound"), ("5 - Good?", None), ("12 - Good", None)]
)
def test_a_grade_stands_before_its_word(text: str, value: str | None) -> None:
    found = read_word("condition", text)
    assert (found.value if found else None) == value


OUT = [
    ("old_fittings", "permanently attached", True), ("old_fittings", "alter Korb verschweißt", True),
    ("old_fittings", "bracket welded, cannot be removed", True), ("old_fittings", "braccio saldato", True),
    ("old_fittings", "Bolted and welded", False), ("old_fittings", "nothing welded", False),
    ("old_fittings", "bolted, not welded", False), ("old_fittings", "sin soldaduras", False),
    ("old_fittings", "welded base plate", False), ("old_fittings", "welded?", False),
    ("post_line", "bent over at top", True), ("post_line", "rim bent", False),
    ("post_line", "S-curve", True), ("post_line", "straight, not curved", False),
]  # fmt: skip


@pytest.mark.parametrize(("name", "text", "out"), OUT)
def test_what_plainly_rules_kits_out(name: str, text: str, out: bool) -> None:
    assert rules_out(name, text) == out


COMMONWEALTH = [
    ("post_shape", "Circular MS pipe", "round"), ("post_shape", "GI round", "round"), ("post_shape", "Square MS pipe", "square"),
    ("post_shape", "sq. hollow section", "square"), ("post_shape", "2 round, 1 square pipe", None), ("post_shape", "RHS", None),
    ("condition", "Loose in the ground", "loose"), ("condition", "Rusted through near ground", "corroded"),
    ("condition", "sound at base", None), ("condition", "good overall", "sound"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "text", "value"), COMMONWEALTH)
def test_words_beside_a_shape_or_a_condition(name: str, text: str, value: str | None) -> None:
    word = read_word(name, text)
    assert (word.value if word else None) == value
