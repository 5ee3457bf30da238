"""The shape of the house: layers, purity, sizes, what stands at the top level."""

from __future__ import annotations

import ast
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from builder_code import files, name_of, nodes, nodes_of
from each_case import each
from house_picture import BEGINS, PAGE, drawn

ROOT = Path(__file__).resolve().parents[1]
TOOLS = Path(sys.executable).parent
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "pyproject.toml",
    "pinouts",
    "schema",
    "builder",
    "site_templates",
    "tests",
}
MADE_HERE = {"site", "dist", "build"}


def run(*command: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


def test_imports_go_downward_and_the_core_is_pure():
    done = run(str(TOOLS / "lint-imports"), "--no-cache")
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_picture_of_the_house_is_of_this_house():
    text = PAGE.read_text("utf-8")
    assert BEGINS in text
    assert text == drawn(text), "python tests/house_picture.py"


def test_types_are_strict():
    done = run(str(TOOLS / "mypy"))
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize("command", [("check",), ("format", "--check")])
def test_code_is_tidy(command):
    done = run(str(TOOLS / "ruff"), *command, "builder", "tests")
    assert done.returncode == 0, done.stdout


def test_the_top_level_holds_what_it_should():
    if shutil.which("git") and (ROOT / ".git").exists():
        names = {line.split("/")[0] for line in run("git", "ls-files").stdout.splitlines()}
    else:
        names = {path.name for path in ROOT.iterdir()} - MADE_HERE
    assert {name for name in names if not name.startswith(".")} == TOP_LEVEL


@each("path", files(), ids=name_of)
def test_files_stay_small(path):
    lines = path.read_text("utf-8").count("\n")
    assert lines <= 260, f"{lines} lines: split it by idea"


def test_functions_are_near_ten_lines():
    lengths = [
        node.end_lineno - node.body[0].lineno + 1
        for _, node in nodes()
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    ]
    lengths.sort()
    assert lengths[len(lengths) // 2] <= 10
    assert lengths[int(len(lengths) * 0.95)] <= 30


def test_no_module_is_named_for_nothing():
    vague = {"utils", "helpers", "common", "manager", "misc"}
    assert not [path for path in files() if path.stem in vague]


PURE = ("rules", "planning", "proof", "finder", "sound", "parsing", "model", "editing")
CALLS_OUTSIDE = {"open", "print", "input", "exec", "eval", "__import__"}


@pytest.mark.parametrize("package", PURE)
def test_the_core_opens_nothing(package):
    inside = [path for path in files() if name_of(path).startswith(f"{package}/")]
    assert inside
    for path in inside:
        for node in nodes_of(path):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in CALLS_OUTSIDE, f"{path}:{node.lineno}"
