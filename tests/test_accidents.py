"""Accidents and attacks by the command: nothing stays with it, nothing of anybody's is touched, no hang, the right status."""

from __future__ import annotations

import csv
import os
import pickle
import re
import resource
import shutil
import socket
import sqlite3
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import closing
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from nightly_made import Nights, results, site, write_survey

from pipeline.output.data import guarded, unguarded
from pipeline.output.names import site_folders, site_name


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Nights:
    nights = Nights(tmp_path_factory.mktemp("first"), {n: site(n, 1) for n in (1, 2)})
    nights.night()
    return nights


@pytest.fixture
def nights(first: Nights, tmp_path: Path) -> Nights:
    shutil.copytree(first.home, tmp_path / "n")
    return Nights(tmp_path / "n", dict(first.sites), first.made)


def run(words: list[str], timeout: float = 60, **how: Any) -> subprocess.CompletedProcess[str]:
    """The command of this checkout; a hang is a failure."""
    command = [sys.executable, "-m", "pipeline", *words]
    kept = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **how}
    return subprocess.run(command, text=True, timeout=timeout, **kept)


def often(*names: str, slow: tuple[str, ...]) -> list[Any]:
    """Some places for the test command, the others for the slow tests."""
    return [*names, *(pytest.param(name, marks=pytest.mark.slow) for name in slow)]


def words_of(nights: Nights, *more: str, out: Path | None = None) -> list[str]:
    return nights.command("--jobs", "1", *more, out=out)[1:]


def said(done: subprocess.CompletedProcess[str]) -> str:
    assert "Traceback" not in done.stderr
    return " ".join(done.stderr.split())


# names and texts


@pytest.mark.parametrize(
    "text", ["=1+1", "@SUM(A1)", "-2+3", "+1 x", "'quoted", "\tx", "＝1", "a\u202eb", "\u2028", "a\\b", "\x85", "x"]
)
def test_no_text_becomes_a_formula_and_each_can_be_had_back(text: str) -> None:
    made = guarded(text)
    assert made[:1] not in {"=", "+", "-", "@", "\t", "\r", "＝"}
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e]", made)
    assert unguarded(made) == text


def test_a_site_named_like_a_formula(nights: Nights) -> None:
    rows = [{**r, "site_code": "=1+1", "site_name": "@SUM(A1)", "customer": "-2+3", "post_code": "+7x"} for r in site(1, 1)]
    write_survey(nights.home / "surveys" / "odd.csv", rows)
    assert run(words_of(nights)).returncode == 0
    for path in (nights.out / "data").glob("*.csv"):
        cells = [c for row in csv.reader(path.open(newline="", encoding="utf-8")) for c in row]
        bad = [c for c in cells if c[:1] in ("=", "+", "@") or re.match(r"-(?!\d+(\.\d+)?$)", c)]
        assert bad == [], path.name
    assert "'=1+1" in {r["site_code"] for r in nights.table("posts")} & {r["site_code"] for r in nights.table("kits")}


def test_a_code_spelt_like_another_s_folder_has_one_of_its_own(nights: Nights) -> None:
    twin = site_name("OAK 1")
    for n, code in enumerate(("OAK 1", twin)):
        write_survey(nights.home / "surveys" / f"oak{n}.csv", [{**site(n + 1, 1)[0], "site_code": code, "site_name": code}])
    assert run(words_of(nights)).returncode == 0
    books = {r["site_code"]: r["workbook"] for r in nights.table("sites")}
    assert len({b.casefold() for b in books.values()}) == 4
    assert all((nights.out / b).is_file() for b in books.values())


def test_folders_never_collide_and_stay() -> None:
    made = site_folders({"a": "A", "b": "B"}, {"a": "sites/Elsewhere"})
    assert made == {"a": "sites/Elsewhere", "b": "sites/B"}
    codes = {"oak 1": "OAK 1", "x": site_name("OAK 1")}
    assert len({f.casefold() for f in site_folders(codes, {}).values()}) == 2
    assert (
        site_folders({"oak 1": "OAK 1"}, {"other": f"sites/{site_name('OAK 1')}"})["oak 1"] == f"sites/{site_name('OAK 1', 16)}"
    )
    assert not site_name("-rf").startswith("-")


# results are no surveys, and only our own files


def test_the_survey_folder_is_no_place_for_results(nights: Nights) -> None:
    surveys = nights.home / "surveys"
    before = sorted(p.name for p in surveys.rglob("*"))
    done = run(words_of(nights, out=surveys))
    assert done.returncode == 2
    assert "would be read as surveys" in said(done)
    assert sorted(p.name for p in surveys.rglob("*")) == before


def test_results_below_the_survey_folder_are_not_read(nights: Nights) -> None:
    shutil.copytree(nights.out, nights.home / "surveys" / "old results")
    done = run(words_of(nights, out=nights.home / "new"))
    assert done.returncode == 0, done.stderr
    assert "2 files" in said(done)
    done = run(["quote", str(nights.out), *words_of(nights, out=nights.home / "other")[2:]])
    assert done.returncode == 2
    assert "holds the results of a run" in said(done)


def test_no_name_is_not_the_current_folder(nights: Nights, tmp_path: Path) -> None:
    (tmp_path / "cwd").mkdir()
    words = words_of(nights)
    words[words.index("--out") + 1] = ""
    assert run(words, cwd=tmp_path / "cwd", env={**os.environ}).returncode == 2
    assert not any((tmp_path / "cwd").iterdir())


def test_foreign_files_are_put_aside_or_left(nights: Nights) -> None:
    out = nights.home / "theirs"
    (out / "data").mkdir(parents=True)
    (out / "deep").mkdir()
    theirs = {"run.json": b"{}", "data/posts.csv": b"mine", "deep/.film.mkv.part": b"half", ".x.part": b"half"}
    for name, data in theirs.items():
        (out / name).write_bytes(data)
    assert run(words_of(nights, out=out)).returncode == 0
    assert (out / "run-kept-1.json").read_bytes() == b"{}"
    assert (out / "data" / "posts-kept-1.csv").read_bytes() == b"mine"
    assert (out / "deep" / ".film.mkv.part").read_bytes() == (out / ".x.part").read_bytes() == b"half"


def _fifo(path: Path) -> None:
    path.unlink(missing_ok=True)
    os.mkfifo(path)


def _link(path: Path, to: Path) -> None:
    if path.is_dir():
        shutil.rmtree(path)
    path.unlink(missing_ok=True)
    path.symlink_to(to)


@pytest.mark.parametrize(
    "name", often("portfolio.xlsx", ".lock", slow=("run.json", "sites/K-02/K-02-r2.xlsx", ".lock-holder.json", "data/kits.csv"))
)
def test_a_pipe_in_the_place_of_a_result(nights: Nights, name: str) -> None:
    _fifo(nights.out / name)
    nights.sites[2][0]["quantity"] = 3
    nights.write()
    done = run(words_of(nights))
    assert done.returncode == 3 or (name.startswith("sites/") and done.returncode == 0)
    assert name in said(done) or done.returncode == 0
    assert (nights.out / name).is_fifo()


@pytest.mark.parametrize("name", often("sites", "portfolio.xlsx", "ledger.sqlite", slow=("data", ".lock-holder.json", ".lock")))
def test_a_link_in_the_place_of_a_result_is_not_followed(nights: Nights, tmp_path: Path, name: str) -> None:
    theirs = tmp_path / "theirs"
    if name in ("sites", "data"):
        theirs.mkdir()
    else:
        theirs.write_bytes(b"theirs")
    _link(nights.out / name, theirs)
    nights.sites[2][0]["quantity"] = 3
    nights.write()
    done = run(words_of(nights))
    assert done.returncode == 3, done.stderr
    assert "is a link" in said(done)
    assert not any(theirs.iterdir()) if theirs.is_dir() else theirs.read_bytes() == b"theirs"


def test_a_forged_ledger_leads_nowhere(nights: Nights, tmp_path: Path) -> None:
    theirs = tmp_path / "theirs.txt"
    theirs.write_bytes(b"theirs")
    from pipeline.output.folder import file_digest

    for table, values in (("outputs", ("../theirs.txt", file_digest(theirs), "", "")), ("pending", ("../../theirs.txt", "0"))):
        copy = Nights(tmp_path / table, nights.sites, nights.made)
        shutil.copytree(nights.home, copy.home)
        with closing(sqlite3.connect(copy.out / "ledger.sqlite")) as db, db:
            db.execute(f"INSERT INTO {table} VALUES ({','.join('?' * len(values))})", values)
        copy.sites[2][0]["quantity"] = 4
        copy.write()
        done = run(words_of(copy))
        assert done.returncode == 2
        assert "leads out of the folder" in said(done)
        assert theirs.read_bytes() == b"theirs"


def test_what_cannot_be_unpacked_is_called_damaged(nights: Nights) -> None:
    with closing(sqlite3.connect(nights.out / "ledger.sqlite")) as db, db:
        db.execute("UPDATE sites SET result = x'00'")
    nights.sites[2][0]["quantity"] = 4
    nights.write()
    done = run(words_of(nights))
    assert done.returncode == 2
    assert "is damaged" in said(done)


# when nobody listens, or memory is short


@pytest.mark.parametrize("how", ["closed", "full"])
def test_exit_statuses_hold_when_nobody_listens(nights: Nights, how: str) -> None:
    close = (lambda: os.close(2)) if how == "closed" else None
    with open("/dev/full" if how == "full" else os.devnull, "w") as where:
        for status, words in (
            (0, words_of(nights)),
            (2, [*words_of(nights)[:1], str(nights.home / "nothing"), *words_of(nights)[2:]]),
        ):
            assert run(words, stderr=where, preexec_fn=close).returncode == status


@pytest.mark.slow
@pytest.mark.parametrize("megabytes", [150, 250, 400])
def test_little_memory(nights: Nights, megabytes: int) -> None:
    most = megabytes << 20
    nights.sites[2][0]["quantity"] = 5
    nights.write()
    done = run(words_of(nights), preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (most, most)))
    assert done.returncode in (0, 1, 3)
    assert done.returncode != 1 or "Waiting for a correction" in said(done)
    said(done)
    assert run(words_of(nights)).returncode == 0
    assert set(nights.revisions()) == {"K-01", "K-02"}


# the catalogue, the date, the scheduler


def test_a_catalogue_that_is_no_file(nights: Nights) -> None:
    for place in ("/dev/zero", str(nights.home / "pipe")):
        _fifo(nights.home / "pipe")
        words = words_of(nights)
        words[words.index("--catalogue") + 1] = place
        assert run(words).returncode == 2


@pytest.mark.slow
def test_a_catalogue_of_far_too_many_rows(nights: Nights) -> None:
    """Each of its rows is at fault; what comes is one answer, in bounded memory and time, and nothing is written."""
    before = results(nights.out)
    nights.made = nights.made | {"Pairings": [(f"X-{n}", "BD-1") for n in range(200_000)]}
    nights.write()
    done = run(words_of(nights), timeout=500)
    assert done.returncode == 2
    assert "Pairings, A2" in said(done)
    assert len(done.stderr) < 20_000
    assert resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss < 1_200 << 10
    assert results(nights.out) == before


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31"])
def test_a_date_that_would_overflow(nights: Nights, day: str) -> None:
    words = words_of(nights)
    words[words.index("--date") + 1] = day
    done = run(words)
    assert done.returncode == 2
    assert "--date" in said(done)


def _answering(answer: bytes) -> Iterator[str]:
    with socket.create_server(("127.0.0.1", 0)) as server:

        def serve() -> None:
            while True:
                try:
                    peer, _ = server.accept()
                except OSError:
                    return
                with peer:
                    if answer:
                        peer.sendall(answer)
                    time.sleep(0 if answer else 60)

        threading.Thread(target=serve, daemon=True).start()
        yield f"127.0.0.1:{server.getsockname()[1]}"


@pytest.mark.slow
@pytest.mark.parametrize(
    ("scheme", "answer"),
    [
        ("tcp", b""),
        ("tcp", b"HTTP/1.1 400 Bad Request\r\n\r\n"),
        ("tcp", bytes(range(160, 224))),
        ("http", b""),
        ("file", b""),
        ("inproc", b""),
        ("ucx", b""),
    ],
)
def test_a_scheduler_that_is_none(nights: Nights, scheme: str, answer: bytes) -> None:
    pytest.importorskip("distributed")
    for place in _answering(answer):
        done = run(words_of(nights, "--cluster", f"{scheme}://{place}", out=nights.home / "new"), timeout=50)
        assert done.returncode == 2, done.stderr
        assert "No scheduler answers" in said(done)
        assert not (nights.home / "new").exists()


# an accident is not a result


@pytest.fixture
def killed_readers(tmp_path: Path) -> str:
    """A module that takes down the reader of one file, and where it is found."""
    (tmp_path / "doomed.py").write_text(
        "import os, signal\n"
        "import pipeline.intake.reader as r\n"
        "kept = r.take_path\n"
        "def take_path(path, file, *asked):\n"
        "    if file == os.environ.get('DOOMED'): os.kill(os.getpid(), signal.SIGKILL)\n"
        "    return kept(path, file, *asked)\n"
    )
    return str(tmp_path)


def doomed(nights: Nights, where: str, file: str) -> subprocess.CompletedProcess[str]:
    """A run in which the reader of one file is killed each time."""
    code = (
        "import pipeline.intake.readers as s\n"
        "kept = s.Sandbox\n"
        "s.Sandbox = lambda work, **how: kept('doomed:take_path', **how)\n"
        f"from pipeline.cli import main\nmain({words_of(nights)!r})\n"
    )
    path = os.pathsep.join([where, os.environ["PYTHONPATH"]])
    env = {**os.environ, "PYTHONPATH": path, "DOOMED": file}
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120, env=env)


@pytest.mark.slow
def test_a_reader_that_is_killed_changes_no_quotation(nights: Nights, killed_readers: str) -> None:
    """The file has changed in name only: a copy of K-02's is new, its reader dies, and every site stands as it was."""
    before = results(nights.out)
    kept = {n: v for n, v in before.items() if n.startswith("sites/")}
    surveys = nights.home / "surveys"
    text = (surveys / "court-02.csv").read_text()
    (surveys / "court-02.csv").write_text(text + "\n")  # other bytes, the same posts
    done = doomed(nights, killed_readers, "court-02.csv")
    assert done.returncode == 1, done.stderr
    assert nights.revisions() == {"K-01": 1, "K-02": 1}
    assert {r["site_code"]: r["state"] for r in nights.table("sites")} == {"K-01": "to_confirm", "K-02": "incomplete"}
    assert "K-02 is quoted as it last stood" in said(done)
    assert not [r for r in nights.table("changes") if r["kind"] == "no longer asked for"]
    assert run(words_of(nights)).returncode == 0
    now = results(nights.out)
    assert {n: v for n, v in now.items() if n.startswith("sites/")} == kept
    assert now["data/sites.csv"] == before["data/sites.csv"]
    assert not (nights.out / "returns").exists()


def test_a_site_is_not_given_up_while_a_file_cannot_be_read(nights: Nights) -> None:
    surveys = nights.home / "surveys"
    (surveys / "court-02.csv").rename(nights.home / "away.csv")
    (surveys / "z.xlsx").write_bytes(b"PK\x03\x04 cut off")
    done = run(words_of(nights))
    assert done.returncode == 1
    assert "K-02 is quoted as it last stood" in said(done)
    assert nights.revisions() == {"K-01": 1, "K-02": 1}
    assert {r["post_code"] for r in nights.table("posts") if r["site_code"] == "K-02"} == {"P1"}
    assert {r["site_code"]: r["state"] for r in nights.table("sites")}["K-02"] == "incomplete"
    (surveys / "z.xlsx").unlink()
    assert run(words_of(nights)).returncode == 0
    assert nights.revisions() == {"K-01": 1}
    assert [(r["site_code"], r["kind"]) for r in nights.table("changes")] == [("K-02", "no longer asked for")]


def test_what_is_filed_is_what_was_read(nights: Nights) -> None:
    """The survey changes between being hashed and being read: the next run does not take it for unchanged."""
    survey = nights.home / "surveys" / "court-02.csv"
    text = survey.read_text()
    code = (
        "import pipeline.run.story as s, pathlib\n"
        "kept = s.fingerprints\n"
        "def late(*a):\n"
        "    made = kept(*a)\n"
        f"    p = pathlib.Path({str(survey)!r}); p.write_text(p.read_text().replace('P1', 'P7'))\n"
        "    return made\n"
        "s.fingerprints = late\n"
        f"from pipeline.cli import main\nmain({words_of(nights)!r})\n"
    )
    survey.write_text(text.replace("P1", "P5"))
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    survey.write_text(text.replace("P1", "P5"))
    assert "no file was touched" not in said(run(words_of(nights)))
    assert {r["post_code"] for r in nights.table("posts")} == {"P1", "P5"}


def test_a_survey_larger_than_any_is_not_hashed(nights: Nights) -> None:
    with (nights.home / "surveys" / "huge.csv").open("wb") as f:
        f.truncate(12_000_000_000)
    began = time.monotonic()
    done = run(words_of(nights))
    assert done.returncode == 1
    assert "more than any survey or catalogue needs" in said(done)
    assert time.monotonic() - began < 40


def test_files_that_differ_only_in_case_or_stand_in_two_folders_keep_their_names(tmp_path: Path) -> None:
    from pipeline.reading import find_surveys

    for name in ("a/s/x.csv", "a/s/X.csv", "b/s/x.csv"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("x")
    folders = [str(tmp_path / "a" / "s"), str(tmp_path / "b" / "s")]
    names = {f.path: f.name for f in find_surveys(folders)}
    assert sorted(names.values()) == ["X.csv", "a/s/x.csv", "b/s/x.csv"]
    assert {f.path: f.name for f in find_surveys(folders[::-1])} == names


def test_a_reply_holds_only_its_own_classes_and_numbers_within_bounds() -> None:
    from pipeline.intake.taken import Taken
    from pipeline.reading.book import Book, Cell
    from pipeline.reading.replies import consists_of, opened

    admitted = consists_of(Taken)
    good = ("done", Taken("a.csv", "csv", (), ()), False)
    assert opened(pickle.dumps(good), admitted) == good
    bad = [Book("csv", ()), Decimal("1E+999999999"), Fraction(1, 3**9999), 1 << 99999, print, Cell(1, 1, "text", "x")]
    for content in bad:
        assert opened(pickle.dumps(("done", content, False)), admitted)[0] == "unreadable"
