"""A record spoilt beside a job that is begun: what is joined is told, and no error is ours.

Each damage is done to a book whose job is begun: with the file of that day's records the pack as
begun is printed; without it, and where nobody wrote anything down, the way back or what is not
known is.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from shipped_book import FOLDERS_OF_PARTS, PINOUTS, loombook
from shipped_cars import car_path, copy_makers, typed_in_one

from builder.book import begun_path

TANSY, SORREL = "tansy-subwoofer-finished", "sorrel-five-channels"
Spoil = Callable[[Path, str], None]


def job_of(book: Path, name: str) -> Path:
    return book / "jobs" / f"{name}.yaml"


def named(book: Path, name: str, pattern: str) -> str:
    found = re.search(pattern, job_of(book, name).read_text("utf-8"), re.MULTILINE)
    assert found, pattern
    return found[1]


def car(book: Path, name: str) -> Path:
    vehicle = named(book, name, r"^vehicle: (\S+)")
    return next((book / "vehicles").rglob(f"{vehicle}.yaml"))


def part(folder: str, pattern: str) -> Callable[[Path, str], Path]:
    return lambda book, name: book / folder / f"{named(book, name, pattern)}.yaml"


converter = part("converters", r"^converter: (\S+)")
amplifier = part("amplifiers", r"part: ([\w-]+)")
cable = part("cables", r"^cables:[\s\[-]+([\w-]+)")
loom = part("looms", r"^looms:[^a-z]+record: ([\w-]+)")


def housing(book: Path, name: str) -> Path:
    found = re.search(r"housing: ([\w-]+)", car(book, name).read_text("utf-8"))
    assert found
    return book / "housings" / f"{found[1]}.yaml"


def without(of: Callable[[Path, str], Path]) -> Spoil:
    return lambda book, name: of(book, name).unlink()


def edited(of: Callable[[Path, str], Path], old: str, new: str) -> Spoil:
    def spoil(book: Path, name: str) -> None:
        text = of(book, name).read_text("utf-8")
        changed = re.sub(old, new, text, count=1, flags=re.MULTILINE | re.DOTALL)
        assert changed != text, old
        of(book, name).write_text(changed, "utf-8")

    return spoil


FIRST_ITEM = r"^({}:\n)(  - .*?\n)(?=  - |\w)"
SPOILT: dict[str, Spoil] = {
    "two plugs of one name": edited(car, r"^(  - id: )B$", r"\1A"),
    "a wire in the cavity of another": edited(car, r"cavity: 12$", "cavity: 11"),
    "two visits of one name": edited(car, FIRST_ITEM.format("sessions"), r"\1\2\2"),
    "two amplifiers of one name": edited(job_of, FIRST_ITEM.format("amplifiers"), r"\1\2\2"),
    "a plug renamed": edited(car, r"^(  - id: )A$", r"\1Z"),
    "a pin removed": edited(car, r"^      - cavity: 7$.*?(?=^      - cavity: )", ""),
    "a plug without pins": edited(car, r"^    pins:\n.*?(?=^  - id: |^\w)", "    pins: []\n"),
    "the car's id changed": edited(car, r"^id: (\S+)$", r"id: \1x"),
    "the converter's id changed": edited(converter, r"^id: (\S+)$", r"id: \1x"),
    "the converter's record gone": without(converter),
    "the amplifier's record gone": without(amplifier),
    "the cable's record gone": without(cable),
    "the housing's record gone": without(housing),
    "the car's record gone": without(car),
}
LOOMS: dict[str, Spoil] = {
    "the loom's record gone": without(loom),
    "a wire of the loom gone": edited(loom, r"^wires:\n  - [^\n]*\n", "wires:\n"),
    "two plugs of one name": SPOILT["two plugs of one name"],
}
NO_CAR = "the car's record gone"


def small_book(folder: Path, name: str) -> Path:
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(PINOUTS / kind, folder / kind)
    (folder / "jobs").mkdir()
    shutil.copy(job_of(PINOUTS, name), folder / "jobs")
    vehicle = named(folder, name, r"^vehicle: (\S+)")
    copy_makers(folder, car_path(PINOUTS, vehicle).parent.name)
    typed_in_one(folder)
    return folder


def begun_book(folder: Path, name: str) -> Path:
    book = small_book(folder, name)
    done = loombook("begin", name, "--by", "third-bay", "--date", "2026-11-28", "--book", book)
    assert done.exit_code == 0, done.output
    assert begun_path(job_of(book, name)).is_file()
    return book


@pytest.fixture(scope="module")
def tansy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return begun_book(tmp_path_factory.mktemp("tansy") / "book", TANSY)


@pytest.fixture(scope="module")
def sorrel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return begun_book(tmp_path_factory.mktemp("sorrel") / "book", SORREL)


def spoilt(whole: Path, folder: Path, name: str, spoil: Spoil, *, frozen: bool) -> Path:
    book = shutil.copytree(whole, folder / "book")
    if not frozen:
        begun_path(job_of(book, name)).unlink(missing_ok=True)
    spoil(book, name)
    return book


def no_error_of_ours(book: Path) -> None:
    said = loombook("check", book)
    assert said.exception is None or isinstance(said.exception, SystemExit), said.exception
    assert "BOK106" not in said.output


def as_begun(book: Path, name: str) -> str:
    said = loombook("show", name, "--as-begun", "--book", book)
    assert said.exit_code == 0, said.output
    return str(said.output)


@pytest.mark.parametrize("what", SPOILT)
def test_the_pack_as_begun_is_printed(tansy: Path, tmp_path: Path, what: str) -> None:
    book = spoilt(tansy, tmp_path, TANSY, SPOILT[what], frozen=True)
    no_error_of_ours(book)
    assert "STEPS IN ORDER" in as_begun(book, TANSY)
    assert "A.7: take" in as_begun(book, TANSY)


@pytest.mark.parametrize("what", [each for each in SPOILT if each != NO_CAR])
def test_without_the_file_of_that_day_the_way_back_is_printed(
    tansy: Path, tmp_path: Path, what: str
) -> None:
    book = spoilt(tansy, tmp_path, TANSY, SPOILT[what], frozen=False)
    no_error_of_ours(book)
    said = loombook("plan", TANSY, "--book", book).output
    assert "BACK TO STOCK" in said
    assert re.search(r"A\.7\b.*: take", said) and "battery negative off" in said
    if what.endswith("record gone") and "housing" not in what:
        kind = what.partition("'")[0].removeprefix("the ")
        assert f"the record of the {kind} " in said and "is not known" in said
        assert "STEPS IN ORDER" not in said


@pytest.mark.parametrize("begun", [True, False])
def test_without_the_file_and_the_car_one_file_is_named_that_brings_the_job_back(
    tansy: Path, tmp_path: Path, begun: bool
) -> None:
    whole = tansy if begun else small_book(tmp_path / "new", TANSY)
    book = spoilt(whole, tmp_path, TANSY, SPOILT[NO_CAR], frozen=False)
    no_error_of_ours(book)
    said = loombook("show", TANSY, "--as-begun", "--book", book)
    assert said.exit_code == 1 and "Traceback" not in said.output
    assert f"{TANSY}.yaml:" in said.output
    assert 'no vehicle record "ostrel-tansy-2017-hatch-base"' in said.output
    back = f"{TANSY}.begun.json" if begun else "ostrel-tansy-2017-hatch-base.yaml"
    for command in (("show", TANSY), ("plan", TANSY), ("comeback", TANSY), ("check",)):
        book_at = ("--book", book) if len(command) > 1 else (book,)
        help_lines = [x for x in loombook(*command, *book_at).output.splitlines() if "copy" in x]
        assert any(f"copy {back} back from a backup" in each for each in help_lines), command
    put_back(whole, book, begun=begun)
    assert "BACK TO STOCK" in loombook("plan", TANSY, "--book", book).output


def put_back(whole: Path, book: Path, *, begun: bool) -> None:
    """Do what the finding asks for, and nothing else."""
    found = begun_path(job_of(whole, TANSY)) if begun else car(whole, TANSY)
    shutil.copy(found, begun_path(job_of(book, TANSY)).parent if begun else book / "vehicles")


@pytest.mark.parametrize("what", LOOMS)
@pytest.mark.parametrize("frozen", [True, False])
def test_a_loom_that_changed_leaves_the_pack_or_the_way_back(
    sorrel: Path, tmp_path: Path, what: str, frozen: bool
) -> None:
    book = spoilt(sorrel, tmp_path, SORREL, LOOMS[what], frozen=frozen)
    no_error_of_ours(book)
    if frozen:
        assert "STEPS IN ORDER" in as_begun(book, SORREL)
    assert "BACK TO STOCK" in loombook("plan", SORREL, "--book", book).output


@pytest.mark.parametrize("what", ["a pin removed", "the cable's record gone"])
def test_an_old_job_with_results_that_nothing_plans_is_read_as_begun(
    tmp_path: Path, what: str
) -> None:
    book = spoilt(small_book(tmp_path / "new", TANSY), tmp_path, TANSY, SPOILT[what], frozen=False)
    no_error_of_ours(book)
    said = as_begun(book, TANSY)
    assert "what is joined cannot be told" in said and "STEPS IN ORDER" not in said
    checked = loombook("check", book).output
    told = next(line for line in checked.splitlines() if "BOK118" in line)
    assert f"{TANSY}.yaml:" in told and "cannot be told from the book" in told
    assert "type begun: {by: YOU" in checked


def test_a_job_of_which_only_lines_before_the_work_were_read_is_no_begun_one(
    tmp_path: Path,
) -> None:
    book = small_book(tmp_path / "book", TANSY)
    text = job_of(book, TANSY).read_text("utf-8")
    head, rest = text.split("results:\n")
    first = rest.split("  - {test: supply-insulation", 1)[0]
    job_of(book, TANSY).write_text(f"{head}results:\n{first}edited: 2025-05-02\n", "utf-8")
    cable(book, TANSY).unlink()
    said = loombook("show", TANSY, "--as-begun", "--book", book)
    assert said.exit_code == 1 and "cannot be told" not in said.output


@pytest.mark.parametrize("what", ["the converter's record gone", "the car's record gone"])
def test_the_site_is_built_without_links_to_records_that_are_gone(
    tansy: Path, tmp_path: Path, what: str
) -> None:
    book = spoilt(tansy, tmp_path, TANSY, SPOILT[what], frozen=True)
    done = loombook("build", book, "--output", tmp_path / "site")
    assert done.exit_code == 0, done.output
    page = (tmp_path / "site" / "jobs" / f"{TANSY}.html").read_text("utf-8")
    gone = "converters/cvn-2a.html" if "converter" in what else f"vehicles/{car_name(tansy)}.html"
    assert gone not in page and "CVN-2A" in page and "amplifiers/" in page


def car_name(book: Path) -> str:
    return named(book, TANSY, r"^vehicle: (\S+)")
