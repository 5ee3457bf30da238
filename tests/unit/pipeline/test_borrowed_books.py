"""Books of others: fetched by git, held to a commit and a sum, read without a network."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
import yaml
from borrowing import CAR, TANSY, change, git, own_book, repository
from evidence_book import sheet_file, texts
from shipped_book import loombook

from builder.book import open_book
from builder.book.locked import lock_text, sum_of
from builder.model.locked_books import LockedBook
from builder.pipeline.site.borrowed_pages import borrowed_urls

READ = (
    "{plug: A, cavity: 10, state: asleep, minutes: 70, "
    "quantity: dc_v, value: 12.5, battery_v: 12.6}"
)


@pytest.fixture
def coast(small_book: Path) -> Path:
    """The book of others, in a repository of its own."""
    return repository(small_book)


@pytest.fixture
def ours(tmp_path: Path, coast: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The shop's own book, which has taken it in."""
    home = own_book(tmp_path / "ours")
    monkeypatch.chdir(home)
    done = loombook("books", "add", f"../{coast.name}", "--name", "coast")
    assert done.exit_code == 0, done.output
    return home


def lock(home: Path) -> dict:
    return yaml.safe_load((home / "books.lock").read_text("utf-8"))["books"][0]


def names(home: Path) -> set[str]:
    return {file.name[1] for file in open_book(home).files()}


def test_a_borrowed_car_is_read_and_is_not_ours(ours, coast):
    said = lock(ours)
    assert said["commit"] == git(coast, "rev-parse", "HEAD") and "branch" not in said
    book = open_book(ours)
    car = next(file for file in book.files() if file.name == ("vehicle", TANSY))
    assert book.lender_of(car.path) is not None and book.borrowed[0].book.name == "coast"
    assert loombook("plan", "tansy-subwoofer").exit_code == 0
    assert loombook("check").exit_code == 0


def test_it_is_read_when_its_address_is_gone(ours, coast):
    shutil.rmtree(coast)
    assert loombook("show", TANSY).exit_code == 0
    assert loombook("books", "fetch").exit_code == 0  # all is here: nobody is asked


def test_only_yaml_of_the_commit_is_laid_out_and_no_link(tmp_path, coast, monkeypatch):
    (coast / "vehicles" / "passwd.yaml").symlink_to("/etc/passwd")
    (coast / "run.sh").write_text("touch /tmp/x\n", "utf-8")
    (coast / ".github").mkdir()
    (coast / ".github" / "work.yml").write_text("on: push\n", "utf-8")
    repository(coast, "more")
    home = own_book(tmp_path / "ours")
    monkeypatch.chdir(home)
    assert loombook("books", "add", f"../{coast.name}", "--name", "coast").exit_code == 0
    place = home / ".books" / "coast"
    found = [path for path in place.rglob("*") if not path.is_dir()]
    assert found and {path.suffix for path in found} == {".yaml"}
    assert not [path for path in place.rglob("*") if path.is_symlink() or path.name[0] == "."]


@pytest.mark.parametrize("how", ["changed", "added", "gone", "linked", "never"])
def test_other_files_than_the_commits_are_not_read(ours, how):
    car = ours / ".books" / "coast" / CAR
    if how == "changed":
        change(car, "base: pink", "base: violet")
    elif how == "added":
        shutil.copy(car, car.with_name("more.yaml"))
    elif how == "gone":
        car.unlink()
    elif how == "linked":
        shutil.move(car, ours / "kept.yaml")
        car.symlink_to(ours / "kept.yaml")
    else:
        shutil.rmtree(ours / ".books")
    done = loombook("check")
    assert done.exit_code == 1 and "stop BOK124" in done.output
    assert re.search(r"books\.lock:5:\d+: ", done.output) and "loombook books fetch" in done.output
    assert TANSY not in names(ours)
    assert loombook("books", "list").exit_code == 1
    assert loombook("books", "fetch").exit_code == 0
    assert loombook("check").exit_code == 0 and TANSY in names(ours)


def test_a_sum_that_is_not_that_of_the_commit_is_refused(ours):
    change(ours / "books.lock", lock(ours)["sum"], "0" * 64)
    done = loombook("books", "fetch")
    assert done.exit_code == 1 and "holds other files than books.lock says" in done.stderr
    assert (ours / ".books" / "coast").is_dir()  # what was there stays


def test_a_commit_that_the_address_lost_is_said(ours, coast):
    change(ours / "books.lock", lock(ours)["commit"], "0" * 39 + "1")
    shutil.rmtree(ours / ".books")
    done = loombook("books", "fetch")
    assert done.exit_code == 1 and "has no commit 0000" in done.stderr


def test_an_address_that_is_gone_is_said_as_git_says_it(ours, coast):
    shutil.rmtree(coast)
    shutil.rmtree(ours / ".books")
    done = loombook("books", "fetch")
    assert done.exit_code == 1 and re.fullmatch("coast: git: [^\n]+\n", done.stderr)


@pytest.mark.parametrize(
    "address",
    ["ext::sh -c touch% x", "--upload-pack=x", "-x", "https://a b", "http://pins.example",
     "a@-oProxyCommand=x:b", "ssh://-oProxyCommand=x/b", "file://-x"],
)  # fmt: skip
def test_an_address_that_git_could_take_otherwise_is_refused(tmp_path, address, monkeypatch):
    home = own_book(tmp_path / "ours")
    monkeypatch.chdir(home)
    done = loombook("books", "add", "--name", "coast", "--", address)
    assert done.exit_code == 2 and "address" in done.stderr
    assert not (home / ".books").exists() and not (home / "books.lock").exists()


@pytest.mark.parametrize("key", ["name", "folder", "branch"])
@pytest.mark.parametrize("said", ["../x", "-x", "a b", "/etc", "a/../../b"])
def test_a_name_folder_or_branch_that_leads_out_is_refused(ours, coast, key, said):
    done = loombook("books", "add", f"../{coast.name}", *("--name", "more"), f"--{key}", said)
    assert done.exit_code == 2 and said not in [path.name for path in ours.iterdir()]


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        ("books:", "boks:", "SCH101"),
        ('name: "coast"', 'name: "Coast"', "SCH"),
        ("schema: 1", "schema: [", "YML"),
        ('name: "coast"', 'name: "../coast"', "SCH"),
    ],
)
def test_a_damaged_lock_borrows_nothing_and_says_why(ours, old, new, rule):
    change(ours / "books.lock", old, new)
    done = loombook("check")
    assert done.exit_code == 1 and "books.lock:" in done.output and TANSY not in names(ours)
    assert "Traceback" not in done.output
    assert loombook("books", "fetch").exit_code == 1


def test_two_of_one_name_are_a_finding_and_the_first_is_read(ours):
    text = (ours / "books.lock").read_text("utf-8")
    other = text[text.index("  - ") :].replace('"../book"', '"../other"')
    (ours / "books.lock").write_text(text + other, "utf-8")
    assert "stop BOK125" in loombook("check").output and TANSY in names(ours)


def test_roots_that_lead_out_of_a_borrowed_book_are_not_followed(tmp_path, coast, monkeypatch):
    aside = tmp_path / "aside"
    shutil.move(coast / "housings", aside / "housings")
    (coast / "book.yaml").write_text(
        "schema: 1\nroots: [., ../../../aside, {path: inner, visibility: private}]\n", "utf-8"
    )
    (coast / "inner").mkdir()
    shutil.move(coast / "cables", coast / "inner" / "cables")
    repository(coast, "roots")
    home = own_book(tmp_path / "ours")
    monkeypatch.chdir(home)
    assert loombook("books", "add", f"../{coast.name}", "--name", "coast").exit_code == 0
    kinds = {file.kind for file in open_book(home).files()}
    assert "vehicle" in kinds and not kinds & {"housing", "cable"}


def test_nothing_is_written_into_a_borrowed_book(ours):
    car = ours / ".books" / "coast" / CAR
    before = sum_of(ours / ".books" / "coast")
    assert "left alone" in loombook("mend").stderr
    assert loombook("tidy", car).exit_code == 2
    assert sum_of(ours / ".books" / "coast") == before


def test_what_an_update_changes_for_own_jobs_is_said_before_it_is_taken(ours, coast):
    assert "nothing newer" in loombook("books", "update").output
    change(coast / CAR, "rated_a: 120", "rated_a: 100")
    repository(coast, "battery")
    before = lock(ours)
    done = loombook("books", "update", "coast")
    assert done.exit_code == 1 and lock(ours) == before
    mine, theirs = done.output.split("In the borrowed books themselves:")
    assert "13.0 A to spare at hot idle" in mine and "120 → 100" in theirs
    assert loombook("books", "update", "coast", "--take").exit_code == 0
    assert lock(ours)["commit"] == git(coast, "rev-parse", "HEAD") != before["commit"]
    assert "rated_a: 100" in (ours / ".books" / "coast" / CAR).read_text("utf-8")
    assert "fix PWR105" in loombook("check").output  # as the update had said


def test_what_is_measured_on_a_borrowed_car_is_a_visit_of_the_own_book(ours, coast, tmp_path):
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}", READ)
    lent = ours / ".books" / "coast"
    before, graded = texts(lent), grades_of_borrowed()
    done = loombook("evidence", "add", sheet)
    assert "BAY106" not in done.output and "written: visits/" in done.output, done.output
    (visit,) = ours.glob(f"visits/{TANSY}/third-bay-2025-11-02-zz1-*.yaml")
    assert texts(lent) == before
    assert open_book(ours).lender_of(visit) is None
    assert "third-bay" in loombook("show", TANSY).output
    assert "third-bay" not in loombook("show", TANSY, "-b", coast).output
    since = grades_of_borrowed()
    assert {pin for pin in graded if since[pin] != graded[pin]} == {"A.10"}
    assert loombook("check").exit_code == 0
    assert loombook("plan", "tansy-subwoofer").exit_code == 0


def test_an_update_of_the_borrowed_car_keeps_the_own_visit(ours, coast, tmp_path):
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}", READ)
    loombook("evidence", "add", sheet)
    graded = grades_of_borrowed()
    assert "nothing newer" in loombook("books", "update").output
    change(coast / CAR, "generation: second", "generation: third")
    repository(coast, "generation")
    told = loombook("books", "update", "coast").output
    assert "second → third" in told and "visit" not in told and "A.10" not in told, told
    assert loombook("books", "update", "coast", "--take").exit_code == 0
    assert grades_of_borrowed() == graded and loombook("check").exit_code == 0


def grades_of_borrowed() -> dict:
    said = json.loads(loombook("show", TANSY, "--format", "json").stdout)
    rows = said["computed"]["grades"]
    return {f"{row['plug']}.{row['cavity']}": row["score"] for row in rows}


def test_a_history_written_anew_keeps_what_was_taken(ours, coast):
    change(coast / CAR, "base: pink", "base: violet")
    git(coast, "add", "-A")
    git(coast, "commit", "-q", "--amend", "-m", "anew")
    done = loombook("books", "update")
    assert done.exit_code == 1 and "→" in done.output
    assert loombook("check").exit_code == 0


def test_a_folder_in_it_and_a_branch_are_kept_in_the_lock(tmp_path, coast, monkeypatch):
    (coast / "pinouts").mkdir()
    git(coast, "checkout", "-q", "-b", "shop")
    for kind in [path for path in coast.iterdir() if path.name not in (".git", "pinouts")]:
        shutil.move(kind, coast / "pinouts" / kind.name)
    repository(coast, "moved")
    git(coast, "checkout", "-q", "main")
    home = own_book(tmp_path / "ours")
    monkeypatch.chdir(home)
    done = loombook("books", "add", f"../{coast.name}", "--branch", "shop", "--folder", "pinouts")
    assert done.exit_code == 0, done.output
    assert lock(home) | {"commit": "", "sum": ""} == {
        "name": "book", "address": f"../{coast.name}", "branch": "shop", "folder": "pinouts",
        "commit": "", "sum": "",
    }  # fmt: skip
    assert TANSY in names(home)
    assert "no branch nowhere" in loombook(
        "books", "add", f"../{coast.name}", "--branch", "nowhere", "--name", "more"
    ).stderr  # fmt: skip


def test_a_book_that_is_killed_while_it_is_laid_out_is_whole_before_or_after(
    ours, coast, monkeypatch
):
    change(coast / CAR, "base: pink", "base: violet")
    repository(coast, "colour")
    before = sum_of(ours / ".books" / "coast")

    def gone(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "rename", gone)
    assert loombook("books", "update", "--take").exit_code != 0
    assert sum_of(ours / ".books" / "coast") == before


def test_what_is_written_can_be_read_again():
    book = LockedBook(
        name="a", address="https://a", branch="b", folder="c", commit="1" * 40, sum="2" * 64
    )
    said = yaml.safe_load(lock_text([book]))["books"]
    assert said == [{"name": "a", "address": "https://a", "branch": "b", "folder": "c",
                     "commit": "1" * 40, "sum": "2" * 64}]  # fmt: skip
    assert yaml.safe_load(lock_text([]))["books"] == []


def test_no_template_or_hook_of_git_gets_into_what_is_fetched(ours):
    assert not (ours / ".books" / "coast.git" / "hooks").exists()
    assert (ours / ".books" / ".gitignore").read_text("utf-8") == "*\n"


def own_copy(home: Path, line: str = "") -> Path:
    """The borrowed car as one of our own, with a line more."""
    own = home / CAR
    own.parent.mkdir(parents=True)
    text = (
        (home / ".books" / "coast" / CAR).read_text("utf-8").replace("rated_a: 120", "rated_a: 90")
    )
    own.write_text(f"{text.rstrip()}\n{line}", "utf-8")
    return own


def test_an_own_record_stands_in_for_a_borrowed_one_when_it_says_so(ours):
    own = own_copy(ours, f"replaces: {{id: {TANSY}, reason: our own car}}\n")
    assert "BOK" not in loombook("check").output
    (car,) = (file for file in open_book(ours).files() if file.name == ("vehicle", TANSY))
    assert car.path == own and not car.lender


def test_an_own_record_of_a_borrowed_ones_name_is_a_finding_until_it_says_so(ours):
    own_copy(ours)
    done = loombook("check")
    assert done.exit_code == 1 and f'"{TANSY}" is used by' in done.output
    assert f"replaces: {{id: {TANSY}" in done.output


def test_two_borrowed_copies_of_one_record_count_once_and_two_that_differ_are_a_finding(
    ours, coast, tmp_path
):
    hill = tmp_path / "hill"
    shutil.copytree(coast / "housings", hill / "housings")
    repository(hill)
    assert loombook("books", "add", "../hill").exit_code == 0
    assert loombook("check").exit_code == 0
    block = next((hill / "housings").glob("block*.yaml"))
    block.write_text(block.read_text("utf-8") + "# another\n", "utf-8")
    repository(hill, "another")
    assert loombook("books", "update", "hill", "--take").exit_code == 0
    done = loombook("check")
    assert done.exit_code == 1 and "BOK102" in done.output


def test_a_borrowed_record_is_shown_as_borrowed_wherever_it_is_shown(ours, coast, tmp_path):
    said = f"Borrowed from the book coast (../{coast.name}) at commit {lock(ours)['commit'][:12]}."
    assert said in loombook("show", TANSY).output
    assert json.loads(loombook("show", TANSY, "--format", "json").stdout)["borrowed"] == said
    assert loombook("build", "--output", tmp_path / "site").exit_code == 0
    site = tmp_path / "site"
    assert said in (site / "vehicles" / f"{TANSY}.html").read_text("utf-8")
    assert "Borrowed" not in (site / "jobs" / "tansy-subwoofer.html").read_text("utf-8")
    about = json.loads((site / "data/vehicles" / f"{TANSY}.json").read_text("utf-8"))["about"]
    assert about["borrowed"] == said and about["licence"].startswith("not stated")
    own_copy(ours, f"replaces: {{id: {TANSY}, reason: our own car}}\n")
    assert "Borrowed" not in loombook("show", TANSY).output


def test_the_terms_are_those_of_the_book_that_keeps_it(tmp_path, coast, monkeypatch):
    (coast / "book.yaml").write_text("schema: 1\ndata_licence: ask the coast\n", "utf-8")
    repository(coast, "terms")
    home = own_book(tmp_path / "ours")
    monkeypatch.chdir(home)
    assert loombook("books", "add", f"../{coast.name}", "--name", "coast").exit_code == 0
    (borrowed,) = open_book(home).borrowed
    assert borrowed.data_licence == "ask the coast"
    assert borrowed_urls(open_book(home))[f"vehicles/{TANSY}.html"].data_licence == "ask the coast"
