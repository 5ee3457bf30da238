"""What the forge's workflows run, run here: in a real repository, on names that mean harm."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml
from borrowing import change, git
from shipped_book import ROOT

WORKFLOWS = ROOT / ".github" / "workflows"
CAR = "vehicles/ostrel/ostrel-tansy-2017-hatch-base.yaml"
BASH = shutil.which("bash") or "bash"


def workflow(name: str) -> dict[str, Any]:
    return yaml.safe_load((WORKFLOWS / f"{name}.yml").read_text("utf-8"))


def script(name: str, job: str, has: str) -> str:
    """What the one step of a job that runs `has` types into the shell."""
    runs = [step.get("run", "") for step in workflow(name)["jobs"][job]["steps"]]
    (found,) = [run for run in runs if has in run]
    return found


def run(text: str, folder: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run it as the forge does, which stops at the first line that fails."""
    at = [str(Path(sys.executable).parent), os.environ["PATH"]]
    return subprocess.run(
        [BASH, "-e", "-o", "pipefail", "-c", text], cwd=folder, text=True, capture_output=True,
        check=False, env={**os.environ, "PATH": os.pathsep.join(at), **environment},
    )  # fmt: skip


@pytest.fixture
def proposal(small_book: Path) -> Path:
    """A book on a branch of its own; main has moved on since, on another file."""
    (small_book / ".gitignore").write_text("summary.md\n", "utf-8")
    git(small_book, "init", "-q", "-b", "main")
    git(small_book, "add", ".")
    git(small_book, "commit", "-q", "-m", "first")
    git(small_book, "checkout", "-q", "-b", "mine")
    change(small_book / CAR, "base: pink", "base: violet")
    git(small_book, "commit", "-q", "-a", "-m", "mine")
    git(small_book, "checkout", "-q", "main")
    change(small_book / "amplifiers/amn-4.yaml", "min_v: 9.0", "min_v: 9.5")
    git(small_book, "commit", "-q", "-a", "-m", "theirs")
    git(small_book, "checkout", "-q", "mine")
    return small_book


def reviewed(book: Path) -> tuple[subprocess.CompletedProcess[str], str]:
    done = run(
        script("book", "check", "--changed-since"), book,
        BASE=git(book, "rev-parse", "main"), GITHUB_STEP_SUMMARY=str(book / "summary.md"),
    )  # fmt: skip
    return done, (book / "summary.md").read_text("utf-8")


def test_a_proposals_page_says_what_it_changes_and_not_what_others_did(proposal):
    done, page = reviewed(proposal)
    assert "pink → violet" in page and "amn" not in page
    # The colour of a wire that is proved by its readings: nothing to mend.
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_proposal_that_breaks_a_record_fails_and_its_page_stands(proposal):
    change(proposal / CAR, "base: violet", "base: Pnik")
    git(proposal, "commit", "-q", "-a", "-m", "slip")
    done, page = reviewed(proposal)
    assert done.returncode == 1 and "::error" in done.stdout
    assert "What this changes" in page


def test_a_proposal_without_a_record_passes(proposal):
    git(proposal, "reset", "-q", "--hard", "main")
    done, page = reviewed(proposal)
    assert done.returncode == 0 and "Nothing changed." in page


PATHS = {
    "pinouts/vehicles/ostrel/a.yaml": "ostrel",
    "vehicles/mirdle/b.yml": "mirdle",
    "private/vehicles/own-make/c.yaml": "own-make",
    "pinouts/vehicles/$(touch x)/d.yaml": None,
    "pinouts/vehicles/a;b/d.yaml": None,
    "pinouts/vehicles/--all/../e.yaml": None,
    f"pinouts/vehicles/{'a' * 41}/e.yaml": None,
    "pinouts/housings/block.yaml": None,
    "README.md": None,
    "pinouts/visits/torvane-rook-2016/shop-2025-11-02-zz1.yaml": "torvane",
    "pinouts/visits/a-car-of-nobody/shop-2025-11-02-zz1.yaml": None,
    "pinouts/visits/$(touch x)/shop-2025-11-02-zz1.yaml": None,
}
BEFORE = (
    "pinouts/vehicles/torvane/torvane-rook-2016.yaml",
    "pinouts/vehicles/hesper/hesper-moor-2009.yaml",
    "pinouts/vehicles/$(touch x)/$(touch x).yaml",
)


def test_labels_are_the_makers_and_no_word_of_a_file_name_is_run(tmp_path):
    (tmp_path / "paths").write_text("".join(f"{path}\n" for path in PATHS), "utf-8")
    (tmp_path / "before").write_text("\n".join((*BEFORE, "")), "utf-8")
    forge = tmp_path / "bin" / "gh"
    forge.parent.mkdir()
    forge.write_text(
        '#!/bin/sh\ncase "$2" in *git/trees*) exec cat before ;; esac\n'
        '[ "$1" = api ] && exec cat paths\n'
        '[ "$1" = label ] && exit 1\nprintf "%s\\n" "$*" >> said\n', "utf-8"
    )  # fmt: skip
    forge.chmod(0o755)
    done = run(
        script("labels", "makers", "gh api"), tmp_path, REPO="a/b", NUMBER="7", BASE="c0ffee",
        PATH=f"{forge.parent}{os.pathsep}{os.environ['PATH']}",
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    said = (tmp_path / "said").read_text("utf-8").splitlines()
    makers = sorted(maker for maker in PATHS.values() if maker)
    assert said == [f"pr edit 7 --repo a/b --add-label {maker}" for maker in makers]
    assert not (tmp_path / "x").exists()


def test_what_labels_a_proposal_fetches_nothing_of_it():
    # It runs with rights that a proposal from elsewhere must not get hold of.
    flow = workflow("labels")
    steps = [step for job in flow["jobs"].values() for step in job["steps"]]
    assert flow[True] == {"pull_request_target": None}  # YAML 1.1 reads "on" as true
    assert not [step for step in steps if "uses" in step]
    assert not [step for step in steps if "${{" in step["run"]]


@pytest.mark.parametrize("name", ["book", "labels", "release", "tests"])
def test_no_word_of_a_proposal_is_put_into_a_script(name):
    steps = [step for job in workflow(name)["jobs"].values() for step in job["steps"]]
    for step in steps:
        assert not re.search(r"\$\{\{(?! *matrix\.)", step.get("run", "")), step


def test_dated_data_holds_the_records_their_terms_and_the_tables(tmp_path):
    book = tmp_path / "repository"
    shutil.copytree(ROOT / "pinouts" / "housings", book / "pinouts" / "housings")
    shutil.copy(ROOT / "pinouts" / "LICENSE", book / "pinouts")
    shutil.copytree(ROOT / "schema", book / "schema")
    git(book.parent, "init", "-q", "-b", "main", "repository")
    git(book, "add", ".")
    git(book, "commit", "-q", "-m", "first")
    text = script("release", "data", "git archive")
    done = run(text, book, LAST="", GITHUB_ENV=str(tmp_path / "env"))
    assert done.returncode == 0, done.stdout + done.stderr
    assert (tmp_path / "env").read_text("utf-8").startswith("DAY=20")
    records, tables = sorted((book / "dist").glob("*.tar.gz"))
    listed = subprocess.run(["tar", "-tzf", records], capture_output=True, text=True, check=True)
    assert re.search(r"^loombook-data-[0-9-]{10}/pinouts/LICENSE$", listed.stdout, re.M)
    listed = subprocess.run(["tar", "-tzf", tables], capture_output=True, text=True, check=True)
    assert "data/pins.csv" in listed.stdout
    sums = ["sha256sum", "--check", "--strict", "SHA256SUMS"]
    assert subprocess.run(sums, cwd=book / "dist", check=False).returncode == 0


def test_data_is_due_when_a_record_changed_and_not_otherwise(proposal, tmp_path):
    # The small book stands at the top of its repository; the workflow's is in pinouts/.
    (proposal / "pinouts").mkdir()
    git(proposal, "mv", "housings", "pinouts/housings")
    (proposal / "schema").mkdir()
    (proposal / "schema" / "one").write_text("1", "utf-8")
    git(proposal, "add", ".")
    git(proposal, "commit", "-q", "-m", "moved")
    text, out = script("release", "data", "git tag"), tmp_path / "out"

    def due() -> str:
        out.write_text("", "utf-8")
        assert run(text, proposal, GITHUB_OUTPUT=str(out)).returncode == 0
        return out.read_text("utf-8").split()[0]

    assert due() == "due=yes"
    git(proposal, "tag", "data-2026-01-01")
    assert due() == "due=no"
    (proposal / "schema" / "one").write_text("2", "utf-8")
    git(proposal, "commit", "-q", "-a", "-m", "changed")
    assert due() == "due=yes"
