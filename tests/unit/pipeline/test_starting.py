"""A shop's own book: made once, never overwritten, and good for every command at once."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
import yaml
from shipped_book import FOLDERS_OF_PARTS, PINOUTS, loombook

from builder.book import open_book
from builder.data_files import schema_folder
from builder.model.house_defaults import HouseDefaults
from builder.pipeline.checking.book_check import check_book
from builder.store import FOLDER

JOB = """title: more bass
vehicle: ostrel-tansy-2017-hatch-base
car: moss-9
year: 2017
wanted: more bass
protect: none
converter: cvn-2a
converter_place: right side
amplifier: ["sub amp: amn-600, right luggage side"]
speaker: ["box: sub, 2 ohm, 500 w, sub amp 1, from rl rr, lead 1.2"]
route: ["radio > converter: control, 6 m, right sill"]
cables: twin-16, three-core-18
"""


@pytest.fixture
def alone(tmp_path: Path) -> Path:
    done = loombook("start", tmp_path / "our-book", "--alone", "--name", "North bay: ours")
    assert done.exit_code == 0, done.output
    return tmp_path / "our-book"


def texts(folder: Path) -> dict[str, str]:
    files = (path for path in folder.rglob("*") if path.is_file() and path.parent.name != FOLDER)
    return {  # photos too, whatever their bytes are
        path.relative_to(folder).as_posix(): path.read_bytes().decode("utf-8", "surrogateescape")
        for path in files
    }


def test_it_has_what_a_shop_needs(alone):
    names = texts(alone)
    kinds = ("vehicles", *FOLDERS_OF_PARTS, "jobs")
    assert {f"{kind}/TEMPLATE.yaml" for kind in kinds} <= set(names)
    assert {"book.yaml", "README.md", ".gitignore", ".github/workflows/book.yml"} <= set(names)
    assert {path.name for path in schema_folder().iterdir()} == {
        name.removeprefix("schema/") for name in names if name.startswith("schema/")
    }
    assert all((alone / "private" / kind).is_dir() for kind in kinds)
    assert "private/" in names[".gitignore"].splitlines()
    assert "@" not in names["README.md"] and "# North bay: ours\n" in names["README.md"]


def test_its_settings_say_shared_and_private_and_every_house_default(alone):
    book = open_book(alone)
    assert book.site_name == "North bay: ours"
    assert [(root.folder, root.visibility) for root in book.roots] == [
        (alone, "shared"),
        (alone / "private", "private"),
    ]
    assert book.defaults == HouseDefaults() and not book.findings
    text = (alone / "book.yaml").read_text("utf-8")
    start = text.index("# house_defaults:")
    opened = "\n".join(
        line.removeprefix("# ").removeprefix("#") for line in text[start:].split("\n")
    )
    stated = yaml.safe_load(opened)["house_defaults"]
    assert stated == {name: value for name, value, _, _ in HouseDefaults.described()}
    (alone / "book.yaml").write_text(text[:start] + opened, "utf-8")
    assert open_book(alone).defaults == HouseDefaults() and not open_book(alone).findings


def test_the_first_line_of_each_template_leads_to_the_schema_beside_it(alone):
    for kind in ("vehicles", "jobs"):
        first = (alone / kind / "TEMPLATE.yaml").read_text("utf-8").splitlines()[0]
        assert (alone / kind / first.split("$schema=")[1]).is_file()
    first = (alone / "book.yaml").read_text("utf-8").splitlines()[0]
    assert (alone / first.split("$schema=")[1]).is_file()


def test_every_command_works_in_it_at_once(alone, monkeypatch):
    monkeypatch.chdir(alone)
    assert loombook("check").exit_code == 0
    assert loombook("build").exit_code == 0
    assert (alone / "site" / "index.html").is_file()
    done = loombook("find", "tansy", "switched")
    assert done.exit_code == 1 and "Nothing in this book" in done.output


def test_it_is_filled_in_but_never_overwritten(alone):
    (alone / "README.md").write_text("ours", "utf-8")
    (alone / "cables" / "TEMPLATE.yaml").unlink()
    before = texts(alone)
    done = loombook("start", alone, "--alone", "--name", "Other")
    assert done.exit_code == 0 and "1 files written" in done.output
    after = texts(alone)
    assert {name for name in after if before.get(name) != after[name]} == {"cables/TEMPLATE.yaml"}
    assert ".gitignore names private/" in done.output


def test_settings_of_the_other_name_are_kept_too(alone):
    (alone / "book.yaml").rename(alone / "loombook.yaml")
    loombook("start", alone, "--alone")
    assert not (alone / "book.yaml").exists()
    assert open_book(alone).site_name == "North bay: ours"


@pytest.mark.parametrize("named", [True, False], ids=["named", "the book here"])
def test_a_shared_book_is_part_of_it(tmp_path, monkeypatch, named):
    monkeypatch.chdir(tmp_path if named else PINOUTS.parent)
    done = loombook("start", tmp_path / "ours", *(("--shared", PINOUTS) if named else ()))
    assert done.exit_code == 0, done.output
    book = open_book(tmp_path / "ours")
    assert book.roots[0].folder.resolve() == PINOUTS.resolve()
    checked = check_book(book)
    assert not checked.failing
    assert "ostrel-tansy-2017-hatch-base" in {summary.id for summary in checked.summaries}
    monkeypatch.chdir(tmp_path / "ours")
    assert "cavity 7" in loombook("find", "tansy", "2018", "switched").output


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--shared", "."), "holds no book"),
        (("--name", "two\nlines"), "one line"),
        (("--alone", "--shared", "."), "contradict"),
    ],
)
def test_wrong_use_makes_nothing(tmp_path, monkeypatch, arguments, says):
    monkeypatch.chdir(tmp_path)
    done = loombook("start", "ours", *arguments)
    assert done.exit_code == 2 and says in done.output
    assert not (tmp_path / "ours").exists()


def test_a_file_in_the_way_is_said(tmp_path):
    (tmp_path / "ours").write_text("", "utf-8")
    assert loombook("start", tmp_path / "ours", "--alone").exit_code == 2


def test_a_new_record_stands_in_the_shop_s_own_folder_and_a_job_in_its_private_one(tmp_path):
    shared = tmp_path / "shared"
    shutil.copytree(PINOUTS, shared)
    before = texts(shared)
    book = tmp_path / "ours"
    assert loombook("start", book, "--shared", shared).exit_code == 0
    ask = ("--name", "Twin 15", "--use", "speaker_pair", "--size", "14 awg", "--jacket", "black")
    more = ("--pairs", "red black", "--singles", "none")
    done = loombook("new", "cable", "-b", book, *ask, *more)
    assert (book / "cables" / "twin-15.yaml").is_file(), done.output
    answers = tmp_path / "answers.yaml"
    answers.write_text(JOB, "utf-8")
    done = loombook("new", "job", "-b", book, "--answers", answers)
    assert (book / "private" / "jobs" / "more-bass.yaml").is_file(), done.output
    assert texts(shared) == before
