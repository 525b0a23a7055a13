"""House rules of the load package: every public function says its source, shapes and arguments; imports stay light."""

from __future__ import annotations

import ast
import inspect
import pkgutil
import re
from importlib import import_module

import pytest

import pipeline.loads as package
from pipeline.loads.constants import CONSTANTS

MODULES = [import_module(f"{package.__name__}.{m.name}") for m in pkgutil.iter_modules(package.__path__)]
FUNCTIONS = [
    pytest.param(f, id=f"{m.__name__.rsplit('.', 1)[1]}.{name}")
    for m in MODULES
    for name, f in vars(m).items()
    if inspect.isfunction(f) and f.__module__ == m.__name__ and not name.startswith("_")
]
MARK = re.compile(r"(\((published|memory|restated: [^()]+|computed with \w+)\)|common practice|house rule)$")
"""What a source is: the standard itself at hand, or somebody's restatement of it, or a library's, or memory."""

MAY = {"pipeline.loads", "numpy", "schemas", "dataclasses", "typing", "math", "collections.abc", "__future__"}


@pytest.mark.parametrize("f", FUNCTIONS)
def test_a_public_function_says_its_arguments_range_and_source(f):
    doc = inspect.getdoc(f) or ""
    lines = [line for line in doc.splitlines() if line.startswith("Source: ")]
    assert len(lines) == 1
    assert lines[0].rstrip().endswith((".", ")"))
    assert "Range: " in doc
    for name in inspect.signature(f).parameters:
        assert name in doc, f"{name} is not said"


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.__name__.rsplit(".", 1)[1])
def test_imports_stay_light_and_files_short(module):
    source = inspect.getsource(module)
    assert len(source.splitlines()) <= 300
    for node in ast.walk(ast.parse(source)):
        names = [a.name for a in node.names] if isinstance(node, ast.Import) else []
        names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        for name in names:
            assert any(name == m or name.startswith(m + ".") for m in MAY), name


@pytest.mark.parametrize("constant", CONSTANTS, ids=lambda c: c.name)
def test_a_constant_has_its_source_and_an_honest_mark(constant):
    assert constant.what
    assert MARK.search(constant.source)
