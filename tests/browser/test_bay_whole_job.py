"""A job from its first step to its way back: worked on a phone without a signal, two lines failing,
mended, brought into the book, done, and undone on paper as it was really joined."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import CHROMIUM, Browser
from evidence_book import JOB, job_file, small_book
from moving_site import MovingSite, served
from printing import TO_TEXT, print_page
from shipped_book import loombook
from test_bay_mode import FAILING, FIELD, FILL, begin, killed, now, onward, walk
from test_bay_sheet import address, build, choose, exported, of_sheet
from test_offline import save

from builder.book import open_book
from builder.pipeline.answers.packs import MadePack, packed
from builder.planning.bay.line import WITH_THE_CIRCUIT

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
    pytest.mark.skipif(TO_TEXT is None, reason="pdftotext is not installed"),
]
PAGE = f"jobs/{JOB}.html"
ELSEWHERE = "left kick panel"
"""Where the turn-on was joined in truth; the plan says at the radio."""


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book whose job is begun, and joined at one place otherwise than planned."""
    folder = small_book(tmp_path_factory.mktemp("whole") / "book")
    begun = ("begin", JOB, "--by", "third-bay", "--date", WITH_THE_CIRCUIT)
    done = loombook(*begun, "--book", folder)
    assert done.exit_code == 0, done.output
    text = job_file(folder).read_text("utf-8")
    joined = re.compile(r"place: radio(, meets: A\.7 )|place: radio(\n +meets: A\.7 )")
    assert len(joined.findall(text)) == 1
    said = joined.sub(lambda found: f"place: {ELSEWHERE}{found[1] or found[2]}", text)
    job_file(folder).write_text(said, "utf-8")
    build(folder)
    return folder


@pytest.fixture
def site(book: Path) -> Iterator[MovingSite]:
    with served(book.parent / "site") as running:
        yield running


def made(book: Path) -> MadePack:
    return packed(open_book(book), JOB)


def brought(book: Path, sheet: Path) -> MadePack:
    done = loombook("evidence", "add", sheet, "--book", book)
    assert "written:" in done.output, done.output
    return made(book)


def back_to(phone: Browser, test: str) -> None:
    for _ in range(300):
        if now(phone)["test"] == test:
            return
        phone.run("document.querySelector('.bay-back').click()")
    raise AssertionError(f"{test} never came")


def worked(phone: Browser, page: str) -> None:
    """All of it, over a failed line, a reload, an undo and a kill."""
    begin(phone)
    choose(phone, "by", "third-bay")
    walk(phone, FAILING[0])
    phone.run(FILL, False)
    assert now(phone)["next"] == "Failed: next"
    onward(phone)
    phone.driver.refresh()
    phone.run("document.querySelector('.bay-undo').click()")
    assert (now(phone)["test"], phone.run(FIELD)) == (FAILING[0], "")
    walk(phone, "subwoofer-gain")
    killed(phone, page)
    assert now(phone)["test"] == "subwoofer-gain"
    assert walk(phone)[-1]["then"] == "Nothing is open."


def mended(phone: Browser) -> None:
    """Both causes found: the lines read again, and good."""
    for test in reversed(FAILING):
        back_to(phone, test)
        phone.run(FILL, True)
        onward(phone)
    while not now(phone)["end"]:
        onward(phone)


def new_folder(phone: Browser, folder: Path) -> Path:
    folder.mkdir()
    phone.as_phone(folder)
    return folder


def test_a_job_worked_offline_is_done_and_its_way_back_names_what_is_joined(
    browser: Browser, book: Path, site: MovingSite, tmp_path: Path
) -> None:
    first = made(book)
    assert (first.standing.state, len(first.standing.left)) == ("begun", len(first.pack.tests))
    folder = new_folder(browser, tmp_path / "first")
    save(browser, site, PAGE)
    site.silent = True
    browser.open(site.address + PAGE)
    worked(browser, site.address + PAGE)
    failing = brought(book, exported(browser, folder))
    assert (failing.standing.state, failing.standing.failed) == ("failing", FAILING)
    assert (failing.planned, failing.digest) == (first.planned, first.digest)
    folder = new_folder(browser, tmp_path / "second")
    mended(browser)
    last = exported(browser, folder)
    assert {each["test"] for each in of_sheet(last)["results"]} == {t.id for t in first.pack.tests}
    done = brought(book, last)
    assert (done.standing.state, done.standing.left) == ("done", ())
    assert (done.planned, done.pack.revert) == (first.planned, first.pack.revert)
    browser.run("localStorage.clear()")
    paper_says_what_is_joined(browser, book, tmp_path)


def paper_says_what_is_joined(browser: Browser, book: Path, folder: Path) -> None:
    build(book)
    browser.open(address(book))
    state = "return document.querySelector('#state strong').textContent"
    assert browser.run(state) == "Done."
    printed = print_page(browser, "A4", folder / "job.pdf").running
    as_built = made(book).standing.as_built
    assert as_built is not None
    for joint in (each for each in as_built.joints if each.way_back and each.meets[:2] == "A."):
        at = joint.meets.split(" ")[0]
        lines = [x for x in made(book).pack.revert if x.startswith((f"{at}:", f"{at} "))]
        assert len(lines) == 1 and joint.place in lines[0]
        assert lines[0].replace(" ", "") in printed
    assert f"({ELSEWHERE})".replace(" ", "") in printed
    assert "batterynegativeoff" in printed
