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
from ten_minutes import add_the_car, checkout_in

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


def declared(requires: Iterable[str], extra: str) -> dict[str, Distribution]:
    """The packages that are asked for, and those that they ask for, as they are installed here.

    Of the first those too that are asked for by an extra.
    """
    found: dict[str, Distribution] = {}
    first = [Requirement(one) for one in requires]
    due = [one for one in first if not one.marker or one.marker.evaluate({"extra": extra})]
    for one in due:
        one.marker = None
    while due:
        need = due.pop()
        name = canonicalize_name(need.name)
        if name not in found and (not need.marker or need.marker.evaluate({"extra": ""})):
            found[name] = distribution(name)
            due += map(Requirement, found[name].requires or ())
    return found


def link_what_is_declared(wheel: Path, packages: Path, extra: str = "") -> None:
    """Put what the wheel says it needs into an empty environment, and nothing else.

    Linked, not fetched: what is declared and missing fails here, what is used and not declared
    fails when the tool is run, and neither waits for a network.
    """
    (of_wheel,) = distributions(path=[str(wheel)])
    for package in declared(of_wheel.requires or (), extra).values():
        tops = {Path(file).parts[0] for file in package.files or ()} - {"..", "__pycache__"}
        assert tops, package.metadata["Name"]
        for top in tops:
            if not (packages / top).exists():
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
    assert "builder/py.typed" in names
    assert not [name for name in names if name.startswith(("tests/", "pinouts/"))]


@pytest.fixture(scope="module")
def tool(wheel, tmp_path_factory) -> Path:
    """The command, in an environment that has what it asks for and nothing of the site's."""
    env = tmp_path_factory.mktemp("light") / "env"
    run(sys.executable, "-m", "venv", "--without-pip", env, cwd=env.parent)
    link_what_is_declared(wheel, packages_of(env / "bin" / "loombook"))
    pip = (sys.executable, "-m", "pip", "--python", env / "bin" / "python")
    run(*pip, "install", "--quiet", "--no-deps", "--no-index", wheel, cwd=env.parent)
    return env / "bin" / "loombook"


def packages_of(tool: Path) -> Path:
    return next(tool.parents[1].glob("lib/*/site-packages"))


ASKED = "from builder.api import open_book; print(*open_book('pinouts').ids('converter'))"
WITHOUT_SITE = (
    ("check",),
    ("find", "tansy", "switched"),
    ("show", "ostrel-tansy-2017-hatch-base"),
    ("plan", "ostrel-tansy-2017-hatch-base", "--converter", "cvn-2a"),
    ("why", "PIN101"),
    ("next",),
    ("new", "table", "car.xlsx"),
    ("new", "bay-sheet", "ostrel-tansy-2017-hatch-base", "--dry-run"),
    ("tidy", "--check"),
    ("mend",),
    ("mend", "--dry-run"),
    ("start", "theirs", "--alone"),
)


def test_without_the_site_s_packages_all_but_the_site_is_there(wheel, tool, tmp_path):
    assert not (packages_of(tool) / "mkdocs").exists()
    small_book(tmp_path / "pinouts")
    for words in WITHOUT_SITE:
        run(tool, *words, cwd=tmp_path)
    assert "cvn-2a" in run(tool.with_name("python"), "-c", ASKED, cwd=tmp_path)
    done = subprocess.run(
        [tool, "build"], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    (line,) = done.stderr.splitlines()
    assert done.returncode == 1 and not (tmp_path / "site").exists()
    assert "mkdocs, mkdocs-material, segno" in line
    assert line.endswith(f'type: python -m pip install "loombook[site] @ {wheel.as_uri()}"')
    asked = [tool, "sound", "track", "test.wav"]
    done = subprocess.run(asked, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == 1 and "sound needs numpy, scipy as well" in done.stderr


def test_the_installed_tool_checks_and_builds_a_book_elsewhere(wheel, tool, tmp_path):
    link_what_is_declared(wheel, packages_of(tool), "site")
    small_book(tmp_path / "my-book")
    run(tool, "start", "ours", "--shared", "my-book", cwd=tmp_path)
    assert "nothing to mend" in run(tool, "check", cwd=tmp_path / "ours")
    run(tool, "build", "--public", cwd=tmp_path / "ours")
    assert (tmp_path / "ours" / "site" / "index.html").is_file()
    assert (tmp_path / "ours" / "site" / "handbook" / "cautions.html").is_file()
    assert "cavity 7" in run(tool, "find", "tansy", "switched", cwd=tmp_path / "ours")


def test_a_car_is_added_in_ten_minutes_from_a_wheel(wheel, tool, tmp_path):
    link_what_is_declared(wheel, packages_of(tool), "site")
    add_the_car(checkout_in(tmp_path / "loombook", tool.parents[1]))
