"""Where the time of a cold run goes: stages.py SURVEYS CATALOGUE OUT prints the processor time of each stage [s].

One process, one job. The readers are another process; their time is told apart.
"""

from __future__ import annotations

import importlib
import json
import resource
import sys
import time
from typing import Any

STAGES = (
    ("fingerprints of the inputs", "pipeline.run.story", "fingerprints"),
    ("catalogue read, another process", "pipeline.run.story", "_read_first"),
    ("sites put together from rows", "pipeline.site.tasks", "gather"),
    ("run opened in the ledger", "pipeline.run.open_run", "open_run"),
    ("fit, kits, loads", "pipeline.site.blocks", "work_out"),
    ("remedies, advice, refusals", "pipeline.site.blocks", "_words"),
    ("lines of data files", "pipeline.site.blocks", "fit_lines"),
    ("lines of data files", "pipeline.site.blocks", "kit_lines"),
    ("lines of data files", "pipeline.site.batch", "site_lines"),
    ("reports and money", "pipeline.site.batch", "put_together"),
    ("reports and money", "pipeline.site.batch", "summary"),
    ("site workbooks", "pipeline.site.batch", "site_workbook"),
    ("written: workbooks, data, ledger", "pipeline.run.quote_sites", "_take_outcome"),
    ("written: workbooks, data, ledger", "pipeline.run.quote_sites", "_intend"),
    ("portfolio, run.json, ledger closed", "pipeline.run.finish", "finish"),
)
"""Name, module, function; no function of the list calls another of it."""


def timed(used: dict[str, float], name: str, module: str, function: str) -> None:
    """Puts a watch around a function."""
    home = importlib.import_module(module)
    work = getattr(home, function)

    def watched(*args: Any, **kwargs: Any) -> Any:
        start = time.process_time()
        try:
            return work(*args, **kwargs)
        finally:
            used[name] = used.get(name, 0.0) + time.process_time() - start

    setattr(home, function, watched)


def main(surveys: str, catalogue: str, out: str) -> None:
    """Runs and prints."""
    from pipeline.cli import main as command

    loading = time.process_time()
    used: dict[str, float] = {}
    for name, module, function in STAGES:
        timed(used, name, module, function)
    loaded = time.process_time()
    sys.argv = [
        "postquote",
        "quote",
        surveys,
        "--catalogue",
        catalogue,
        "--out",
        out,
        "--date",
        "2026-03-02",
        "--jobs",
        "1",
        "--quiet",
    ]
    try:
        command()
    except SystemExit as end:
        if end.code not in (0, 1):
            raise
    whole = time.process_time()
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    rest = whole - loaded - sum(used.values())
    told = {"start": loading, "modules loaded": loaded - loading, **used, "everything else": rest}
    print(json.dumps({**told, "readers and frames (other processes)": children.ru_utime + children.ru_stime}))


if __name__ == "__main__":
    main(*sys.argv[1:])
