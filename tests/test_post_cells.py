"""Marks for `the same as above`, and Post cells that name several posts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.intake.survey.post_cells import is_same_as_above, posts_named

SAME = (
    '"', "''", "〃", ",,", '" "', '-"-', '--"--', "”", "″", "do", "do.", "Do", "ditto", "DITTO", "same", "Same.", "as above",
    "id.", "Id.",
    "same as above", "(same)", "idem", "Ídem", "dto.", "wie oben", "s.o.", "come sopra", "como acima", "comme ci-dessus", "↑",
)  # fmt: skip
NOT_SAME = (
    "", " ", "-", "--", "n/a", "'", ",", "same as P1", "same size", "8'", '3"', "round", "not the same", "no", "id", "none", ".",
    "done", "dot", "todo", "0", "same?",
)  # fmt: skip


@pytest.mark.parametrize("text", SAME)
def test_same_as_above(text: str) -> None:
    assert is_same_as_above(text)


@pytest.mark.parametrize("text", NOT_SAME)
def test_not_the_same_as_above(text: str) -> None:
    assert not is_same_as_above(text)


NAMED = [
    ("N & S", 2, "N S", True), ("N and S", 2, "N S", True), ("E + W", 2, "E W", True), ("1, 2, 3", 3, "1 2 3", True),
    ("1,2", 2, "1 2", True), ("1 & 2", 2, "1 2", True), ("both", 2, "", True), ("Pair", 2, "", True), ("a pair", 2, "", True),
    ("both posts", 2, "", True),
    ("pair of posts", 2, "", True), ("1 to 4", 4, "1 2 3 4", True), ("P1-P4", 4, "P1 P2 P3 P4", True),
    ("P1 to P3", 3, "P1 P2 P3", True), ("1-4", 4, "1 2 3 4", False), ("P1-4", 4, "P1 P2 P3 P4", False),
    ("A to D", 4, "A B C D", True),
    ("A, B and C", 3, "A B C", True), ("A & B", 2, "A B", True), ("posts 1 and 2", 2, "1 2", True),
    ("North and South", 2, "North South", True), ("north post and south post", 2, "north south", True),
    ("4 posts", 4, "", True), ("all 4", 4, "", True), ("all four posts", 4, "", True), ("two posts", 2, "", True),
    ("all", None, "", True), ("All posts", None, "", True), ("P1, 2, 3", 3, "P1 P2 P3", True), ("P1, P3", 2, "P1 P3", True),
    ("01-04", 4, "01 02 03 04", False), ("1, 3-5", 4, "1 3 4 5", False), ("3/4", 2, "3 4", False), ("N/S", 2, "N S", False),
    ("N-S", 2, "N S", False), ("N y S", 2, "N S", True), ("Nord und Süd", 2, "Nord Süd", True), ("beide", 2, "", True),
    ("1 à 3", 3, "1 2 3", True), ("101,102", 2, "101 102", False), ("1; 2", 2, "1 2", True), ("Poles 5, 6 & 7", 3, "5 6 7", True),
]  # fmt: skip


@pytest.mark.parametrize(("text", "number", "codes", "sure"), NAMED)
def test_several_posts(text: str, number: int | None, codes: str, sure: bool) -> None:
    found = posts_named(text)
    assert found is not None
    assert (found.number, found.codes, found.sure) == (number, tuple(codes.split()), sure)


ONE = (
    "", "P1", "1", "12", "North", "N", "near bench and tree", "Jack & Jill", "A1", "P-1", "P 1", "post 1", "4-1", "3.1", "B-A",
    "East end", "court 1 north", "goal at the slide", "S-007", "2590", "pole by the road", "P1 & P1", "4 to 1", "NE", "P1-Q4",
    "#3", "Allen", "Post A", "no 7", "1a", "twin",
)  # fmt: skip


@pytest.mark.parametrize("text", ONE)
def test_one_post(text: str) -> None:
    assert posts_named(text) is None


@given(st.text(st.sampled_from("PN12 34,&+-/;toand \"'"), max_size=12))
def test_never_raises_and_names_as_many_as_it_says(text: str) -> None:
    assert is_same_as_above(text) in (True, False)
    found = posts_named(text)
    if found and found.codes:
        assert found.number == len(found.codes) == len(set(found.codes)) > 1
