"""What a forge and a commit hook read: valid, asking how it was measured, naming real commands."""

from __future__ import annotations

import re

import click
import pytest
import yaml
from shipped_book import ROOT, loombook

from builder.cli import main

FORGE = ROOT / ".github"
WORKFLOW = FORGE / "workflows" / "book.yml"
TESTS = FORGE / "workflows" / "tests.yml"
ISSUE = FORGE / "ISSUE_TEMPLATE" / "correct-a-pin.yml"
PULL_REQUEST = FORGE / "pull_request_template.md"
LABELS = FORGE / "workflows" / "labels.yml"
RELEASE = FORGE / "workflows" / "release.yml"
GUIDES = {
    FORGE / f"{name}.md" for name in ("CONTRIBUTING", "CODE_OF_CONDUCT", "SECURITY", "CHANGELOG")
}
HOOKS = ROOT / ".pre-commit-hooks.yaml"
SHOP_README = ROOT / "site_templates" / "start" / "README.md"
ALL = sorted(path for path in FORGE.rglob("*") if path.is_file())


def test_every_file_is_known_here():
    assert {WORKFLOW, TESTS, LABELS, RELEASE, ISSUE, PULL_REQUEST, *GUIDES} == set(ALL)


@pytest.mark.parametrize("path", [*ALL, HOOKS, SHOP_README], ids=lambda path: path.name)
def test_only_commands_and_options_that_exist_are_named(path):
    # In prose a command stands between backticks; in YAML and code blocks it begins a line.
    named = re.findall(r"(?:`|: |^)loombook ([a-z][\w-]*)([^\n`]*)", path.read_text("utf-8"), re.M)
    assert named or path in (ISSUE, TESTS, LABELS, RELEASE, *GUIDES)
    for name, rest in named:
        assert name in main.commands, name
        options = {o for p in main.commands[name].params if isinstance(p, click.Option)
                   for o in p.opts}  # fmt: skip
        assert set(re.findall(r"(?<!\S)--[a-z-]+", rest)) <= options, rest


def test_the_workflow_checks_builds_without_private_folders_and_publishes():
    flow = yaml.safe_load(WORKFLOW.read_text("utf-8"))
    assert flow["permissions"] == {"contents": "read"}
    check, publish = flow["jobs"]["check"], flow["jobs"]["publish"]
    runs = [step["run"] for step in check["steps"] if "run" in step]
    assert "loombook check --format annotations" in runs
    builds = [run for run in runs if "loombook build" in run]
    assert builds == ["loombook build --public --output site"]
    uploaded = [step for step in check["steps"] if step.get("with", {}).get("path")]
    assert [step["with"]["path"] for step in uploaded] == ["site"]
    assert publish["needs"] == "check"


@pytest.mark.parametrize("path", [WORKFLOW, TESTS, RELEASE], ids=lambda path: path.name)
def test_actions_are_pinned_by_commit_and_say_which_version_that_is(path):
    # A tag can be moved to other code, the sum of a commit cannot.
    used = re.findall(r"uses: *(.*)", path.read_text("utf-8"))
    assert used
    for action in used:
        assert re.fullmatch(r"actions/[a-z-]+@[0-9a-f]{40} # v[0-9]+\.[0-9]+\.[0-9]+", action), (
            action
        )


def test_the_lowest_and_the_newest_versions_are_tested_too():
    flow = yaml.safe_load(TESTS.read_text("utf-8"))
    job = flow["jobs"]["tests"]
    assert {row["lock"] for row in job["strategy"]["matrix"]["include"]} == {
        "test",
        "lowest",
        "newest",
    }
    assert job["steps"][-1]["run"].startswith("lock=${{ matrix.lock }} ")
    assert flow["permissions"] == {"contents": "read"}


def test_a_started_book_gets_the_forge_files_of_a_book_and_no_others(tmp_path):
    assert loombook("start", tmp_path / "ours", "--alone").exit_code == 0
    given = {
        p.relative_to(tmp_path / "ours/.github") for p in (tmp_path / "ours/.github").rglob("*")
    }
    files = {path.as_posix() for path in given if path.suffix}
    assert files == {
        "workflows/book.yml",
        "workflows/labels.yml",
        "ISSUE_TEMPLATE/correct-a-pin.yml",
        "pull_request_template.md",
    }


def test_where_the_workflow_gets_the_tool_from_is_one_setting_and_no_index(tmp_path):
    flow = yaml.safe_load(WORKFLOW.read_text("utf-8"))
    runs = [step.get("run", "") for job in flow["jobs"].values() for step in job["steps"]]
    assert [run for run in runs if "pip" in run] == ['python -m pip install "$LOOMBOOK"']
    assert flow["env"] == {"LOOMBOOK": ".[site]"}
    assert loombook("start", tmp_path / "ours", "--alone").exit_code == 0
    started = yaml.safe_load((tmp_path / "ours/.github/workflows/book.yml").read_text("utf-8"))
    assert re.fullmatch(
        r"tools/loombook-[0-9.]+-py3-none-any\.whl\[site\]", started["env"]["LOOMBOOK"]
    )
    assert "`LOOMBOOK`" in (tmp_path / "ours/README.md").read_text("utf-8")


def test_the_issue_form_asks_how_it_was_measured():
    form = yaml.safe_load(ISSUE.read_text("utf-8"))
    fields = {part["id"]: part for part in form["body"] if part["type"] != "markdown"}
    asked = {"record", "pin", "meter", "state", "value", "battery", "load", "face", "car", "by"}
    assert asked <= set(fields)
    needed = {name for name, part in fields.items() if part.get("validations", {}).get("required")}
    assert {"meter", "state", "load", "face", "car"} <= needed
    assert "chassis number" in form["body"][0]["attributes"]["value"]
    for part in fields.values():
        assert "chassis" not in part["attributes"]["label"].lower()
    assert {"name", "description", "body"} <= set(form)


def test_the_pull_request_asks_the_same():
    text = PULL_REQUEST.read_text("utf-8").lower()
    for word in ("meter", "key state", "load", "face", "car tag", "chassis number"):
        assert word in text


def test_the_hook_checks_the_whole_book_whatever_was_touched():
    (hook,) = yaml.safe_load(HOOKS.read_text("utf-8"))
    assert {"id", "name", "entry", "language"} <= set(hook)
    assert hook["entry"] == "loombook check" and hook["pass_filenames"] is False
    assert re.search(hook["files"], "pinouts/vehicles/a/b.yaml")
