"""The one rounding of results, and the same answer from another instruction set."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from make_examples import KEPT, OUTPUTS, ROOT, command
from test_examples import differing, files

from pipeline.rounding import figure, length

ANY = st.floats(allow_nan=True, allow_infinity=True, width=64)


@given(arrays(np.float64, st.integers(0, 20), elements=ANY))
def test_six_significant_digits_as_python_writes_them(values: np.ndarray) -> None:
    """Against the decimal formatting of the language, exact by IEEE 754; a tie may go either way there."""
    for made, value in zip(figure(values), values, strict=True):
        if np.isfinite(value) and 1e-15 < abs(value) < 1e15:
            assert made == float(f"{made:.6g}")
            assert abs(made - value) <= abs(float(f"{value:.6g}") - value) * (1 + 1e-9)
        elif abs(value) >= 1e15 or not np.isfinite(value):
            np.testing.assert_allclose(made, value, rtol=1e-5)


@given(arrays(np.float64, 5, elements=st.floats(-1e3, 1e3)))
def test_rounding_twice_changes_nothing(values: np.ndarray) -> None:
    for rounded in (figure, length):
        once = rounded(values)
        np.testing.assert_array_equal(rounded(once), once)
        assert not np.signbit(once[once == 0]).any()


def test_the_last_digits_of_a_computation_do_not_show() -> None:
    values = np.array([0.1 + 0.2, 1e6 / 3, 2.5908, 7.123456789e-5])
    nudged = np.nextafter(np.nextafter(values, np.inf), np.inf)
    np.testing.assert_array_equal(figure(nudged), figure(values))
    np.testing.assert_array_equal(length(nudged), length(values))


def vector_instructions() -> list[str]:
    """Groups of vector instructions that numpy uses here above the least that it needs."""
    return [str(name) for name in np.show_config(mode="dicts")["SIMD Extensions"]["found"]]


def test_the_examples_are_the_same_without_vector_instructions(tmp_path: Path) -> None:
    if not vector_instructions():
        pytest.skip("this machine has no vector instructions above numpy's least")
    env = os.environ | {"PYTHONPATH": str(ROOT), "NPY_DISABLE_CPU_FEATURES": " ".join(vector_instructions())}
    words = [sys.executable, "-m", "pipeline", *command(tmp_path / "out")[1:], "--quiet"]
    done = subprocess.run(words, cwd=ROOT, env=env, capture_output=True, check=False)
    assert done.returncode == 1, done.stderr
    assert differing(files(tmp_path / "out", KEPT), files(OUTPUTS, KEPT)) == []  # made with them
