"""The wheel in an empty environment, on a book outside the checkout."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from collections.abc import Iterable
from importlib.metadata import Distribution, distribution, distributions
from pathlib import Path

import pytest
from evidence_book import small_book
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from shipped_book import ROOT

from builder.book import FOLDERS

pytestmark = pytest.mark.slow


def run(*command: str | Path, cwd: Path) -> str:
    clean = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    done = subprocess.run(
        [str(part) for part in command],
        cwd=cwd,
        env=clean,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    pip = (sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation")
    run(*pip, "--wheel-dir", folder, ROOT, cwd=folder)
    return next(folder.glob("loombook-*.whl"))


def declared(requires: Iterable[str]) -> dict[str, Distribution]:
    """The packages that are asked for, and those that they ask for, as they are installed here."""
    found: dict[str, Distribution] = {}
    due = [Requirement(one) for one in requires]
    while due:
        need = due.pop()
        name = canonicalize_name(need.name)
        if name not in found and (not need.marker or need.marker.evaluate({"extra": ""})):
            found[name] = distribution(name)
            due += map(Requirement, found[name].requires or ())
    return found


def link_what_is_declared(wheel: Path, packages: Path) -> None:
    """Put what the wheel says it needs into an empty environment, and nothing else.

    Linked, not fetched: what is declared and missing fails here, what is used and not declared
    fails when the tool is run, and neither waits for a network.
    """
    (of_wheel,) = distributions(path=[str(wheel)])
    for package in declared(of_wheel.requires or ()).values():
        tops = {Path(file).parts[0] for file in package.files or ()} - {"..", "__pycache__"}
        assert tops, package.metadata["Name"]
        for top in tops:
            (packages / top).symlink_to(package.locate_file(top))


def test_schemas_and_templates_travel_in_the_wheel(wheel):
    names = set(zipfile.ZipFile(wheel).namelist())
    for folder in ("schema", "site_templates"):
        for path in (ROOT / folder).rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts:
                inside = f"builder/_data/{path.relative_to(ROOT).as_posix()}"
                assert inside in names
    for kind in FOLDERS:
        assert f"builder/_data/examples/{kind}/TEMPLATE.yaml" in names
    assert "builder/_data/forge/workflows/book.yml" in names
    assert not [name for name in names if name.startswith(("tests/", "pinouts/"))]


def test_the_installed_tool_checks_and_builds_a_book_elsewhere(wheel, tmp_path):
    env, tools = tmp_path / "env", tmp_path / "env" / "bin"
    run(sys.executable, "-m", "venv", "--without-pip", env, cwd=tmp_path)
    link_what_is_declared(wheel, next(env.glob("lib/*/site-packages")))
    pip = (sys.executable, "-m", "pip", "--python", tools / "python")
    run(*pip, "install", "--quiet", "--no-deps", "--no-index", wheel, cwd=tmp_path)
    small_book(tmp_path / "my-book")
    run(tools / "loombook", "start", "ours", "--shared", "my-book", cwd=tmp_path)
    assert "nothing to mend" in run(tools / "loombook", "check", cwd=tmp_path / "ours")
    run(tools / "loombook", "build", "--public", cwd=tmp_path / "ours")
    assert (tmp_path / "ours" / "site" / "index.html").is_file()
    assert (tmp_path / "ours" / "site" / "handbook" / "cautions.html").is_file()
    assert "cavity 7" in run(tools / "loombook", "find", "tansy", "switched", cwd=tmp_path / "ours")
