"""What the command prints: plain in a pipe, on 80 columns, grouped by sender, singular where there is one."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from pipeline.cli import main
from pipeline.commands.terminal import SHOWN, WIDTH, by_sender, counted, progress, say_outcome, span, wrapped
from pipeline.intake.query import Query
from pipeline.run.outcome import Outcome, in_one_line, waiting

EXAMPLES = Path(__file__).parents[1] / "input_examples"
QUERY = Query("a.csv", "", "F7", "NO_UNIT", "Post size: “3.5” has no unit.", "3.5 in", True, "S", "9", "post_size")


def printed(*words: str) -> tuple[int, str]:
    result = CliRunner().invoke(main, words)
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.exit_code, result.output


def ending(**changed) -> Outcome:
    plain = dict.fromkeys(
        ("sites", "posts", "rows_read", "rows_quoted", "files", "ready", "new_revisions", "rewritten", "posts_with_kit"), 1
    ) | dict.fromkeys(
        ("exit_status", "rows_held", "rows_replaced", "files_not_read", "posts_held", "to_confirm", "incomplete"), 0
    )
    return Outcome(**{**plain, "total": "1.00 USD", "waits": (), "failures": (), "notes": (), "expired": (), **changed})


@pytest.fixture
def said(capsys):
    return lambda: capsys.readouterr().err


@pytest.mark.parametrize(("number", "words"), [(0, "0 files"), (1, "1 file"), (2, "2 files"), (1200, "1,200 files")])
def test_counts_have_their_noun(number, words):
    assert counted(number, "file") == words


def test_one_is_singular_everywhere(said):
    say_outcome(ending(), "out", quiet=False)
    text = said()
    assert "1 file, 1 row: 1 quoted, 0 held" in text
    assert "1 new revision; 1 file written" in text
    assert "1 files" not in text
    assert "1 quoted (1 with a kit, 0 without), 0 held" in text
    assert "send the quotations in out/customers" in text


@pytest.mark.parametrize(
    ("seconds", "words"),
    [(0.4, "0 s"), (89, "89 s"), (120, "2 min"), (3600, "1 h 0 min"), (4800, "1 h 20 min"), (50_000, "14 h")],
)
def test_times_are_as_coarse_as_they_are_worth(seconds, words):
    assert span(seconds) == words


@given(st.integers(1, 10**6), st.integers(0, 10**6), st.floats(0.001, 10**5))
def test_progress_keeps_to_the_screen(total, done, took):
    line = progress("Writing the portfolio", min(done, total), total, took)
    assert f"{min(done, total):,}/{total:,}" in line
    if total < 10_000 and 1 < took < 3600:
        assert len(line) <= WIDTH


@pytest.mark.parametrize(
    ("done", "took", "ends"),
    [(30, 15.0, "30/60       2/s  15 s left"), (60, 75.0, "in 75 s"), (2, 240.0, "0.5/min  1 h 56 min left")],
)
def test_progress_says_rate_and_time_left(done, took, ends):
    assert progress("Quoting sites", done, 60, took).endswith(ends)


def test_queries_stand_by_sender_not_by_site(said):
    asked = [("b.csv", "B2: one"), ("a10.csv", "C3: two"), ("a2.csv", "D4: three"), ("b.csv", "E5: four")]
    by_sender("To correct:", asked, "see there")
    lines = [line.strip() for line in said().splitlines()[1:]]
    assert lines == [
        "a2.csv (1)",
        "- D4: three",
        "a10.csv (1)",
        "- C3: two",
        "b.csv (2)",
        "- B2: one",
        "- E5: four",
    ]


def test_many_senders_are_counted_and_the_rest_is_named(said):
    by_sender("To correct:", [(f"f{n}.csv", f"A{m}: wrong") for n in range(SHOWN + 1) for m in range(3)], "queries.csv")
    text = said()
    assert text.count("and 2 more\n") == SHOWN
    assert "and 1 more file\n" in text
    assert text.rstrip().endswith("All: queries.csv")


@pytest.mark.parametrize(
    ("changed", "line"),
    [
        ({}, "F7: Post size: “3.5” has no unit. Instead: 3.5 in"),
        ({"sheet": "Yard"}, "sheet Yard, F7: Post size: “3.5” has no unit. Instead: 3.5 in"),
        ({"message": "It could be 3.5 in."}, "F7: It could be 3.5 in."),
        ({"cell": "", "suggestion": ""}, "Post size: “3.5” has no unit."),
    ],
)
def test_a_query_in_one_line(changed, line):
    assert in_one_line(replace(QUERY, **changed)) == line


@pytest.mark.parametrize(
    ("code", "holds", "waits"),
    [("NO_UNIT", True, True), ("ASKED", False, False), ("NO_HEADINGS", False, True), ("UNREADABLE_FILE", False, True)],
)
def test_what_waits(code, holds, waits):
    assert waiting(replace(QUERY, code=code, holds_row=holds)) is waits


def test_nothing_from_outside_commands_the_terminal(said):
    wrapped("file \x1b[31mred\x07.csv")
    assert said() == "file  [31mred .csv\n"


@pytest.mark.slow
def test_check_and_quote_count_what_waits_alike(tmp_path, monkeypatch):
    """The same surveys, looked at alone and quoted: the same files wait for the same number of answers."""
    monkeypatch.chdir(tmp_path)
    surveys, catalogue = str(EXAMPLES / "surveys"), str(EXAMPLES / "catalogue.xlsx")
    _, checked = printed("check", surveys, "--catalogue", catalogue)
    _, quoted = printed("quote", surveys, "--catalogue", catalogue, "--out", "out", "--date", "2026-03-02")
    ask = re.compile(r"^  (\S+ \(\d+\))$", re.M)
    assert ask.findall(checked.split("To correct")[1].split("Read, but")[0]) == ask.findall(quoted.split("Waiting")[1])
    for text in (checked, quoted):
        assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f]", text)
        assert max(len(line) for line in text.splitlines()) <= WIDTH + 1
    assert "Noted while reading" in checked
    assert "The text is not in UTF-8; it was read as Windows-1252." in checked


@pytest.mark.parametrize("command", ["", *main.commands])
def test_help_has_examples_and_fits_the_screen(command):
    _, text = printed(*([command] if command else []), "--help")
    assert "Examples:" in text
    assert f"postquote {command}".strip() in text
    assert max(len(line) for line in text.splitlines()) <= 80
    assert "..." not in re.sub(r"(SURVEY|SITE)\]?\.\.\.|ARGS\]\.\.\.", "", text)


def test_bar_is_for_terminals_only(said):
    from pipeline.commands.terminal import TerminalProgress

    teller = TerminalProgress(quiet=False)
    teller.stage("Reading surveys", 2)
    teller.step(1)
    teller.step(2)
    teller.stage("Writing the portfolio", 1)
    assert said() == "Reading surveys: 2\nWriting the portfolio\n"
