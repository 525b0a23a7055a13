"""The benchmark runs: a tiny one, so that it cannot rot. It asserts no times."""

from __future__ import annotations

import re

import pytest
from speed import main


@pytest.mark.slow
def test_the_benchmark_runs(capfd):
    main(["--sites", "3", "--one-file", "2", "4", "--posts", "200", "--times", "1"])
    said = capfd.readouterr().out
    for part in ("cold, one job", "cold, two jobs", "unchanged", "1 % changed", "explain", "site workbooks", "200 posts"):
        assert part in said
    assert len(re.findall(r"^\| [24] \|", said, re.MULTILINE)) == 2
