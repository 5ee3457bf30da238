"""`loombook serve` shows what stands in the newest state of the book, whatever is saved."""

from __future__ import annotations

import json
import os
import shutil
import threading
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from opened_files import opened_under
from serving_book import CAR, JOB, PAGE, PLAN, STANDING, TANSY, serving_book
from shipped_book import loombook
from shipped_cars import typed_text
from shop_book import OWN_CAR, shop_book

from builder.book import Book
from builder.cli import serving
from builder.cli.books import opened
from builder.cli.serving import Showing
from builder.cli.site_server import SiteServer
from builder.cli.watching import scanned
from builder.loading import taking
from builder.rendering.patched_site import PatchedSite

GOOD = "Tap plan."


class Served:
    """A book, what `serve` shows of it, and a browser's way to ask for that."""

    def __init__(self, book: Path, site: Path, public: bool = False) -> None:
        self.book = book
        self.server = SiteServer(site)
        self.showing = Showing(
            PatchedSite(site), self.server, lambda since: opened(book, public, since=since)
        )
        threading.Thread(target=self.server.serve_forever, args=(0.01,), daemon=True).start()
        self.showing.show(opened(book, public))

    def end(self) -> None:
        self.server.shutdown()
        self.server.server_close()

    def look(self) -> None:
        """Look until two looks agree, as the command does."""
        while not self.showing.look_again():
            pass

    def get(self, url: str) -> tuple[int, str]:
        address = f"http://127.0.0.1:{self.server.server_port}/{url}"
        try:
            with urllib.request.urlopen(address, timeout=20) as answer:
                return answer.status, answer.read().decode("utf-8")
        except urllib.error.HTTPError as error:
            return error.code, error.read().decode("utf-8")

    def edit(self, place: str, before: str, after: str) -> None:
        path = self.book / place
        text = path.read_text("utf-8")
        assert before in text
        path.write_text(text.replace(before, after), "utf-8")


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    found = Served(serving_book(tmp_path / "book"), tmp_path / "site")
    yield found
    found.end()


def counted(served: Served, monkeypatch: pytest.MonkeyPatch) -> list[Book]:
    """The books that are checked from now on: one for each build."""
    seen: list[Book] = []
    check = serving.check_book

    def noting(book: Book) -> object:
        seen.append(book)
        return check(book)

    monkeypatch.setattr(serving, "check_book", noting)
    return seen


def test_nothing_is_built_while_nothing_changes(
    served: Served, monkeypatch: pytest.MonkeyPatch
) -> None:
    built = counted(served, monkeypatch)
    os.utime(served.book / CAR)
    served.look()
    assert not built


def test_each_look_reads_every_file_once_and_the_rebuild_none(served: Served) -> None:
    served.edit("book.yaml", "Ours", "Theirs")
    served.showing.look_again()
    with opened_under(served.book) as opened_files:
        assert served.showing.look_again()
    records = {path: count for path, count in opened_files.items() if path.suffix == ".yaml"}
    assert set(records) == {path.resolve() for path in served.book.rglob("*.yaml")}
    assert set(records.values()) == {1}
    assert "Theirs" in served.get("index.html")[1]


def test_a_look_at_what_moved_reads_that_alone(served: Served) -> None:
    served.edit(CAR, "variant:", "variant: Zq")
    moved = frozenset({served.book / CAR, served.book / "vehicles" / ".one.yaml.swp"})
    with opened_under(served.book) as opened_files:
        while not served.showing.look_again(moved):
            moved = frozenset()
    records = {path for path in opened_files if path.suffix == ".yaml"}
    assert records == {(served.book / CAR).resolve()}
    assert "Zq" in served.get(PAGE)[1]


def _deleted(car: Path) -> None:
    car.unlink()


def _renamed(car: Path) -> None:
    car.rename(car.with_name("another.yaml"))


def _copied(car: Path) -> None:
    car.with_name("another.yaml").write_bytes(car.read_bytes())


def _linked(car: Path) -> None:
    car.rename(car.parents[3] / "elsewhere.yaml")
    car.symlink_to(car.parents[3] / "elsewhere.yaml")


def _set_up_otherwise(car: Path) -> None:
    (car.parents[2] / "book.yaml").write_text("schema: 1\nsite_name: Theirs\n", "utf-8")


@pytest.mark.parametrize("done", [_deleted, _renamed, _copied, _linked, _set_up_otherwise])
def test_what_is_more_than_a_text_of_a_record_opens_the_book_again(
    served: Served, done: Callable[[Path], None]
) -> None:
    served.look()
    before = scanned(served.showing)
    done(served.book / CAR)
    moved = frozenset(Path(str(stand[0])) for stand in scanned(served.showing) ^ before)
    book = opened(served.book)
    shown = served.showing
    while not shown.look_again(moved):
        pass
    assert shown._book is not None and shown._book.digest == book.digest
    assert {finding.rule_id for finding in shown._book.findings} == {
        finding.rule_id for finding in book.findings
    }


def test_another_content_of_the_same_size_and_time_is_built_again(served: Served) -> None:
    path = served.book / "book.yaml"
    before = path.stat()
    path.write_text("schema: 1\nsite_name: Hers\n", "utf-8")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    after = path.stat()
    assert (after.st_size, after.st_mtime_ns) == (before.st_size, before.st_mtime_ns)
    served.look()
    assert "Hers" in served.get("index.html")[1]


def test_a_stop_that_is_saved_takes_the_record_and_its_plans_and_jobs_down(served: Served) -> None:
    """A cavity used twice: before, the plan stayed up as the last good one."""
    assert GOOD in served.get(PLAN)[1]
    served.edit(CAR, "      - cavity: 11\n", "      - cavity: 7\n")
    served.look()
    for url in (PAGE, PLAN, JOB):
        status, text = served.get(url)
        assert status == 200 and "does not stand" in text and GOOD not in text
        assert "PIN101" in text or url == JOB
    assert served.get(f"data/vehicles/{TANSY}.json")[0] == 404
    assert TANSY not in served.get("data/records.json")[1] + served.get("data/pins.csv")[1]
    assert (
        TANSY not in served.get("assets/finder-data.js")[1] + served.get("vehicles/index.html")[1]
    )
    status, text = served.get(STANDING)
    assert status == 200 and "Not the whole book" in text
    assert TANSY in served.get("left-out.html")[1]


def test_a_record_that_is_mended_comes_back(served: Served) -> None:
    served.edit(CAR, "      - cavity: 11\n", "      - cavity: 7\n")
    served.look()
    text = (served.book / CAR).read_text("utf-8")
    at = text.rindex("      - cavity: 7\n")
    (served.book / CAR).write_text(
        text[:at] + text[at:].replace("cavity: 7", "cavity: 11", 1), "utf-8"
    )
    served.look()
    assert GOOD in served.get(PLAN)[1] and "Not the whole book" not in served.get(STANDING)[1]
    assert served.get("left-out.html")[0] == 404


def test_what_a_failing_record_says_stays_text(served: Served) -> None:
    """The page in its place quotes the finding, and the finding quotes the record."""
    served.edit(CAR, "function: retained", "function: '<script>x</script><b>'")
    served.look()
    for url in (PAGE, "left-out.html"):
        text = served.get(url)[1]
        assert "&lt;script&gt;" in text and "<script>x" not in text and "<b>" not in text


def test_a_part_that_fails_takes_what_rests_on_it_down(served: Served) -> None:
    served.edit("converters/cvn-2a.yaml", "id: cvn-2a", "id: cvn-2b")
    served.look()
    assert "does not stand" in served.get("converters/cvn-2a.html")[1]
    assert "does not stand" in served.get(PLAN)[1]
    text = served.get(JOB)[1]
    assert "does not stand" in text and "there is no converter" in text
    assert "converter cvn-2a" in served.get("left-out.html")[1].lower()
    assert served.get(PAGE)[0] == 200 and "does not stand" not in served.get(PAGE)[1]


def test_of_records_that_contradict_each_other_none_stays(served: Served) -> None:
    """The rule names the later of two; which of them is wrong nobody knows."""
    twin = served.book / "vehicles" / "ostrel" / f"{TANSY}-again.yaml"
    text = typed_text(TANSY).replace(f"id: {TANSY}\n", f"id: {TANSY}-again\n")
    for one, other in (("cavity: 7\n", "cavity: X\n"), ("cavity: 10\n", "cavity: 7\n")):
        text = text.replace(f"      - {one}", f"      - {other}")
    twin.write_text(text.replace("cavity: X", "cavity: 10"), "utf-8")
    served.look()
    found = json.loads(loombook("check", served.book, "--format", "json").output)["findings"]
    stops = [f for f in found if f["severity"] == "stop" and f["accepted"] is None]
    assert [(stop["rule"], Path(stop["file"]).stem) for stop in stops] == [("PIN109", TANSY)]
    for url in (PAGE, f"vehicles/{TANSY}-again.html", PLAN):
        assert "does not stand" in served.get(url)[1], url
    assert "does not stand" not in served.get(STANDING)[1]


def _unreadable(book: Path) -> None:
    (book / CAR).write_text("schema: 1\nid: [\n", "utf-8")


def _not_utf8(book: Path) -> None:
    (book / CAR).write_bytes(b"\xff\xfe" + (book / CAR).read_bytes())


def _empty(book: Path) -> None:
    (book / CAR).write_bytes(b"")


def _folder_in_its_place(book: Path) -> None:
    (book / CAR).unlink()
    (book / CAR).mkdir()


def _link_to_nowhere(book: Path) -> None:
    (book / CAR).unlink()
    (book / CAR).symlink_to(book / "nowhere.yaml")


def _link_to_itself(book: Path) -> None:
    (book / CAR).unlink()
    (book / CAR).symlink_to(book / CAR)


def _pipe(book: Path) -> None:
    (book / CAR).unlink()
    os.mkfifo(book / CAR)


def _settings_broken(book: Path) -> None:
    (book / "book.yaml").write_text("site_name: [\n", "utf-8")


def _two_settings(book: Path) -> None:
    shutil.copy(book / "book.yaml", book / "loombook.yaml")


def _settings_a_folder(book: Path) -> None:
    (book / "book.yaml").unlink()
    (book / "book.yaml").mkdir()


def _root_away(book: Path) -> None:
    (book / "book.yaml").write_text("schema: 1\nroots: [., ../nowhere]\n", "utf-8")


def _vehicles_away(book: Path) -> None:
    shutil.rmtree(book / "vehicles")


def _book_away(book: Path) -> None:
    book.rename(book.with_name("elsewhere"))


SAVED = [
    _unreadable,
    _not_utf8,
    _empty,
    _folder_in_its_place,
    _link_to_nowhere,
    _link_to_itself,
    _pipe,
    _settings_broken,
    _two_settings,
    _settings_a_folder,
    _root_away,
    _vehicles_away,
    _book_away,
]


@pytest.fixture(scope="module")
def lasting(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """One server for all that is saved one after the other, as somebody's whole day."""
    folder = tmp_path_factory.mktemp("lasting")
    found = Served(serving_book(folder / "book"), folder / "site")
    yield found
    found.end()


def give_back(book: Path) -> None:
    """Let the book be as it was at first, whatever stands in its place."""
    shutil.rmtree(book, ignore_errors=True)
    shutil.rmtree(book.with_name("elsewhere"), ignore_errors=True)
    serving_book(book)


@pytest.mark.parametrize("save", SAVED, ids=lambda save: save.__name__.strip("_"))
def test_serve_outlasts_all_that_can_be_saved_and_shows_nothing_older(
    lasting: Served, save: Callable[[Path], None]
) -> None:
    """It answers, shows the plan no more, and shows it again when the book is as it was."""
    assert GOOD in lasting.get(PLAN)[1]
    save(lasting.book)
    try:
        lasting.look()
        status, text = lasting.get(PLAN)
        assert status in (200, 404, 503) and GOOD not in text
        assert lasting.get("index.html")[0] in (200, 503)
    finally:
        give_back(lasting.book)
        lasting.look()
    assert lasting.get(PLAN)[0] == 200 and GOOD in lasting.get(PLAN)[1]


def test_a_file_that_nobody_may_read_takes_its_record_down(
    served: Served, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Asked with a door that is shut, since who runs the tests may read everything."""
    read = taking.read_bounded

    def shut(path: Path, most_bytes: int) -> bytes:
        if path.stem == TANSY:
            raise PermissionError(13, "Permission denied")
        return read(path, most_bytes)

    monkeypatch.setattr(taking, "read_bounded", shut)
    served.look()
    text = served.get(PLAN)[1]
    assert "does not stand" in text and "Permission denied" in text


@pytest.mark.parametrize("place", ["check_book", "patch_site"])
def test_an_error_of_our_own_is_told_and_ends_nothing(
    served: Served, monkeypatch: pytest.MonkeyPatch, place: str, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(*given: object, **named: object) -> None:
        raise ZeroDivisionError

    with monkeypatch.context() as patched:
        patched.setattr(serving, place, broken)
        served.edit("book.yaml", "Ours", "Theirs")
        served.look()
        assert served.get(PLAN)[0] == 503
        assert "ZeroDivisionError" in capsys.readouterr().err
    served.edit("book.yaml", "Theirs", "Hers")
    served.look()
    assert "Hers" in served.get("index.html")[1]


def test_a_full_disk_is_told_and_tried_again(
    served: Served, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(*given: object, **named: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(serving, "patch_site", full)
        served.edit("book.yaml", "Ours", "Theirs")
        served.look()
        served.look()
        said = capsys.readouterr().err
        assert said.count("No space left on device") == 1 and served.get(PLAN)[0] == 503
    served.look()
    assert "Theirs" in served.get("index.html")[1]


def test_a_failing_book_is_shown_from_the_start_as_far_as_it_stands(tmp_path: Path) -> None:
    book = serving_book(tmp_path / "book")
    _unreadable(book)
    served = Served(book, tmp_path / "site")
    assert "does not stand" in served.get(PAGE)[1] and served.get("index.html")[0] == 200
    served.end()


def test_a_state_that_is_half_saved_is_waited_for_but_not_for_ever(
    served: Served, monkeypatch: pytest.MonkeyPatch
) -> None:
    built = counted(served, monkeypatch)
    looks = []
    for number in range(serving.MOST_UNSETTLED):
        (served.book / "book.yaml").write_text(f"schema: 1\nsite_name: N{number}\n", "utf-8")
        looks.append(served.showing.look_again())
    assert looks == [False] * (serving.MOST_UNSETTLED - 1) + [True]
    assert [book.site_name for book in built] == [f"N{serving.MOST_UNSETTLED - 1}"]


def test_a_public_book_shows_and_reads_nothing_private(tmp_path: Path) -> None:
    shop = shop_book(tmp_path / "book")
    with opened_under(shop) as opened_files:
        served = Served(shop, tmp_path / "site", public=True)
    assert not any("zqfolder" in path.parts for path in opened_files)
    assert served.get(f"vehicles/{OWN_CAR}.html")[0] == 404
    served.edit("book.yaml", "North bay", "South bay")
    served.look()
    assert "South bay" in served.get("index.html")[1]
    assert "--public" in loombook("serve", "--help").output
    served.end()


def test_who_saves_again_does_not_wait_for_as_long_as_the_last_build_took(
    served: Served, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock, build = [0.0], serving.patch_site

    def slowly(*given: Any) -> object:
        clock[0] += 100.0
        return build(*given)

    monkeypatch.setattr(serving, "patch_site", slowly)
    monkeypatch.setattr(serving, "time", SimpleNamespace(monotonic=lambda: clock[0]))
    served.edit("book.yaml", "Ours", "Theirs")
    served.look()
    assert clock[0] == 100.0 and served.showing.look_s == 0.0
