"""`postquote explain`: the working for one post, step by step, from what a run left in its folder."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterable
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # threads would cost more to start than one post takes

from pipeline.explaining.case import Case, Left
from pipeline.explaining.find import ExplainError as ExplainError
from pipeline.explaining.find import left_of, mount_named, nearest_mount, queries_of, rows_of
from pipeline.explaining.story import head, story
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.ledger.schema import unreadable
from pipeline.ledger.store import Ledger
from pipeline.rules.catalogue_arrays import catalogue as arrays
from pipeline.site.compute import work_out
from pipeline.site.decided import want_of

LEDGER = "ledger.sqlite"


def explain(folder: Path, site: str, post: str, mount: str) -> Iterable[str]:
    """Lines for stdout about one post: with `mount`, or with the recommended one where that is ''.

    Nothing is written. ExplainError names what exists where site, post or mount is unknown; LedgerError says
    what to do where the folder's ledger cannot be read.
    """
    left = left_in(folder, site)
    rows = rows_of(left, post)
    if rows[0] in left.held:
        from pipeline.explaining.held import held  # loaded only where a row is held

        return [*head(left, rows[0]), *(line for row in rows for line in held(row, queries_of(folder, row), left))]
    return [*head(left, rows[0]), *story(case_of(left, rows[0], mount))]


def left_in(folder: Path, site: str) -> Left:
    """What the runs of `folder` left of a site; errors as `explain`."""
    path = folder / LEDGER
    if not path.is_file():
        raise ExplainError(f"{folder} holds no {LEDGER}: name the folder that was given to `postquote quote` as --out.")
    ledger = Ledger(path, read_only=True)
    try:
        return left_of(ledger, folder, site)
    except sqlite3.DatabaseError as error:
        raise unreadable(path, error) from error
    finally:
        ledger.close()


def case_of(left: Left, row: SurveyRow, mount: str) -> Case:
    """The post worked out again, and the mount to look at."""
    active = arrays(left.kept.tables)
    answer = work_out([row], active, left.kept.policy, [want_of(left.customer, left.decided, active)])
    if mount:
        m = mount_named(active, left.kept.tables, mount)
    elif len(answer.kits.rank):
        m = int(answer.kits.mount[0])
    else:
        m = nearest_mount(answer, active, left.kept.policy)
    kit = next((k for k, of in enumerate(answer.kits.mount.tolist()) if of == m), -1)
    return Case(left, row, active, answer, m, kit, bool(mount))
