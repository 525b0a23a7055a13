"""The seller's own dictionary: faults by cell, headings put into the survey's words, words of lists."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from catalogue_made import sheets, write
from click.testing import CliRunner
from survey_books import book, sheet

from pipeline.cli import main
from pipeline.intake.catalogue import CatalogueFaults, read_catalogue
from pipeline.intake.dictionary import Dictionary, dictionary, with_sellers_headings
from pipeline.intake.survey.headings import claim
from pipeline.intake.survey.near_headings import may_mean


def test_headings_and_words_are_read(tmp_path: Path) -> None:
    said = dictionary(read_catalogue(write(sheets(), tmp_path / "c.xlsx")).tables)
    assert said.headings == {"curvy": "post_line", "reachofstick": "post_height", "sponsor": ""}
    assert said.words == {"condition": {"fair": "surface rust"}, "post_line": {"swoopy": "gooseneck"}}


def test_both_sheets_may_be_missing(tmp_path: Path) -> None:
    made = sheets()
    del made["Headings"], made["Words"]
    assert dictionary(read_catalogue(write(made, tmp_path / "c.xlsx")).tables) == Dictionary({}, {})


FAULTS = [
    ("Headings", ["Curvy?", "Post lines of old"], "B5", "no heading of the survey"),
    ("Headings", ["curvy", "Post line"], "A5", "stands in A2 already"),
    ("Headings", ["Post line", "Condition"], "A5", "the survey's own heading"),
    ("Headings", ["???", "nothing"], "A5", "holds no letter"),
    ("Words", ["Post size", "thick", "round"], "A4", "no column with a list"),
    ("Words", ["Condition", "so-so", "passable"], "C4", "not in the list of “Condition”"),
    ("Words", ["condition", "FAIR", "sound"], "B4", "stands in B2 already"),
    ("Words", ["Condition", "sound", "cracked"], "B4", "a word of the list itself"),
]


@pytest.mark.parametrize(("name", "row", "cell", "says"), FAULTS)
def test_faults_by_cell(tmp_path: Path, name: str, row: list[str], cell: str, says: str) -> None:
    made = sheets()
    made[name].append(row)
    with pytest.raises(CatalogueFaults) as caught:
        read_catalogue(write(made, tmp_path / "c.xlsx"))
    found = [f for f in caught.value.faults if f.sheet == name and f.cell == cell]
    assert found
    assert says in found[0].message
    assert found[0].suggestion


SAID = Dictionary({"curvy": "post_line", "reachofstick": "post_height", "height": ""}, {})


def test_headings_are_put_into_the_surveys_words_with_their_own_unit() -> None:
    rows = [["Site", "Pole", "Curvy?", "Reach of stick (ft)", "Height"], ["S", "P1", "curvy", 8.5, 3]]
    found = {c.address: c.value for c in with_sellers_headings(book(sheet(rows)), SAID).sheets[0].cells}
    assert (found["C1"], found["D1"], found["E1"]) == ("Post line", "Height above ground [ft]", "(not read) Height")
    assert found["C2"] == "curvy"  # a cell of a post is no heading
    assert claim(found["E1"]) is None
    assert may_mean(found["E1"], ("8 ft",)) == ()


def test_headings_down_a_column() -> None:
    rows = [["Pole", "P1"], ["Curvy?", "yes"], ["Pole size", "3 in"], ["Pole height", "8 ft"]]
    found = {c.address: c.value for c in with_sellers_headings(book(sheet(rows)), SAID).sheets[0].cells}
    assert found["A2"] == "Post line"


def test_a_book_without_such_headings_stays_as_it_is() -> None:
    plain = book(sheet([["Site", "Post", "Post size [in]"], ["S", "P", 3.5]]))
    assert with_sellers_headings(plain, SAID) == plain


def test_the_command_reads_surveys_with_the_sellers_words(tmp_path: Path) -> None:
    """The same file with and without the dictionary, in one folder: the reading follows the catalogue, not what is remembered."""
    survey = tmp_path / "a.csv"
    survey.write_text(
        "Site,Pole,OD (in),Shape,Reach of stick (ft),Curvy?,Condition\nElm,P1,3.5,round,8.5,swoopy,fair\n", encoding="utf-8"
    )
    made, plain = sheets(), sheets()
    plain["Headings"], plain["Words"] = plain["Headings"][:1], plain["Words"][:1]
    for name, catalogue, held in (("without", plain, "1"), ("with", made, "0"), ("again", plain, "1")):
        path = write(catalogue, tmp_path / f"{name}.xlsx")
        words = ["quote", str(survey), "--catalogue", path, "--out", str(tmp_path / "out"), "--date", "2026-03-02", "--quiet"]
        assert CliRunner().invoke(main, words).exit_code in (0, 1)
        with (tmp_path / "out" / "data" / "sites.csv").open(encoding="utf-8", newline="") as lines:
            assert [r["rows_held"] for r in csv.DictReader(lines)] == [held]
