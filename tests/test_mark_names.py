"""Where marked copies go: safe on every common system, and never two in one place."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.marking import returned_name


def test_folders_as_in_the_input() -> None:
    names = ["north/posts.xlsx", "north/old/posts.csv", "posts.ods"]
    assert returned_name(names) == {
        "north/posts.xlsx": "returns/north/posts-marked.xlsx",
        "north/old/posts.csv": "returns/north/old/posts-marked.xlsx",
        "posts.ods": "returns/posts-marked.xlsx",
    }


def test_two_files_of_one_name_stay_two() -> None:
    names = ["a.csv", "a.xlsx", "A.CSV", "a-csv.ods"]
    got = returned_name(names)
    assert got["a.xlsx"] == "returns/a-marked.xlsx"
    assert got["a-csv.ods"] == "returns/a-csv-marked.xlsx"
    assert len({v.casefold() for v in got.values()}) == 4
    assert got == {n: returned_name(list(reversed(names)))[n] for n in names}


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        ("con/x.csv", "returns/_con/x-marked.xlsx"),
        ("a /b. /x.csv", "returns/a/b/x-marked.xlsx"),
        ("../../etc/x.csv", "returns/_/_/etc/x-marked.xlsx"),
        ("/abs/x.csv", "returns/abs/x-marked.xlsx"),
        ("C:\\x\\y.csv", "returns/C_/x/y-marked.xlsx"),
        ("x\n<y>?.csv", "returns/x__y__-marked.xlsx"),
        ("x.y.csv", "returns/x.y-marked.xlsx"),
        ("noending", "returns/noending-marked.xlsx"),
        ("Söré/中.xlsx", "returns/Söré/中-marked.xlsx"),
        ("x\u202ecod.csv", "returns/x_cod-marked.xlsx"),
    ],
)
def test_awkward_names(name, wanted) -> None:
    assert returned_name([name]) == {name: wanted}


@given(
    st.lists(
        st.text(st.characters() | st.sampled_from("/.\\ aAcon:éE\u0301"), min_size=1, max_size=300), max_size=12, unique=True
    )
)
def test_any_names_at_all(names) -> None:
    got = returned_name(names)
    paths = list(got.values())
    assert list(got) == names
    assert len({unicodedata.normalize("NFC", p.casefold()) for p in paths}) == len(paths)
    for path in paths:
        assert len(path) <= 260 - 60
        parts = path.split("/")
        assert parts[0] == "returns"
        for part in parts:
            assert part not in ("", ".", "..")
            assert part[-1] not in ". "
            assert not set(part) & set('<>:"\\|?*')
            assert all(unicodedata.category(c)[0] != "C" for c in part)
            assert len(part.encode()) <= 200
        assert not set(paths) & {p.rsplit("/", 1)[0] for p in paths}
