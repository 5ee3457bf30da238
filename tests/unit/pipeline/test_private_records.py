"""A shop's private records: in its own book, marked; in a public one, not a byte of them."""

from __future__ import annotations

import gzip
import io
import json
import re
import shutil
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from shipped_book import loombook
from shop_book import MARK, OWN_CAR, OWN_JOB, TANSY, shop_book

from builder.book import open_book
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.site.private_pages import private_urls

BUILT = ("make", "model", "variant", "generation", "plug", "by-audio", "tag-9", "label", "step",
         "caution", "note", "reading", "reason", "car-one", "housing", "converter", "amplifier",
         "cable", "loom", "interface", "job-one", "title", "wanted", "customer-4", "amp",
         "hand-audio")  # fmt: skip
"""What of the marks has to come out of a build that is not public, or the test proves nothing."""


def contents(name: str, data: bytes) -> Iterator[tuple[str, bytes]]:
    """A file's bytes, and those of what is packed in it, however deep."""
    yield name, data
    if data[:2] == b"\x1f\x8b":
        yield from contents(f"{name}!", gzip.decompress(data))
    if zipfile.is_zipfile(io.BytesIO(data)):
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            for inside in archive.namelist():
                yield f"{name}!{inside}", inside.encode()
                yield from contents(f"{name}!{inside}", archive.read(inside))


def tree(folder: Path) -> dict[str, bytes]:
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


class Built(dict[str, bytes]):
    """The files of a site, and what the command said."""

    said = ""


def built(book: Path, output: Path, *options: str) -> Built:
    done = loombook("build", book, "--output", output, *options)
    assert done.exit_code == 0, done.output
    site = Built(tree(output))
    site.said = done.output
    return site


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return shop_book(tmp_path_factory.mktemp("shop") / "book")


@pytest.fixture(scope="module")
def public(shop: Path, tmp_path_factory: pytest.TempPathFactory) -> Built:
    return built(shop, tmp_path_factory.mktemp("public") / "site", "--public")


@pytest.fixture(scope="module")
def private(shop: Path, tmp_path_factory: pytest.TempPathFactory) -> Built:
    return built(shop, tmp_path_factory.mktemp("private") / "site")


def marks_in(site: dict[str, bytes]) -> set[str]:
    found = set()
    for name, data in site.items():
        for place, text in contents(name, data):
            found |= set(re.findall(rb"zq[a-z0-9-]+", text.lower() + b" " + place.lower().encode()))
    return {mark.decode().removeprefix(MARK) for mark in found}


def test_the_marks_come_out_of_a_build_that_is_not_public(private):
    assert set(BUILT) <= marks_in(private)


def test_no_byte_of_a_public_site_is_private(public):
    assert marks_in(public) == set()


def test_a_public_site_is_that_of_a_book_without_the_private_folder(public, tmp_path):
    book = shop_book(tmp_path / "book", private=False)
    assert built(book, tmp_path / "site") == public


def test_name_and_house_defaults_are_those_of_the_shop(public):
    assert b"North bay" in public["index.html"]
    assert b"0.31" in public["handbook/numbers.html"]


def test_a_replaced_record_is_back_in_public(private, public):
    page = f"vehicles/{TANSY}.html"
    assert b"zqhand-audio" in private[page]
    assert b"zqhand-audio" not in public[page] and b"alder-pit-audio" in public[page]


def test_private_pages_say_so_and_shared_ones_do_not(private):
    private_mark = b'<p class="private-mark"><strong>Private.</strong>'
    pages = {name for name, data in private.items() if name.endswith(".html")}
    marked = {name for name in pages if private_mark in private[name]}
    assert {f"vehicles/{OWN_CAR}.html", f"vehicles/{TANSY}.html", f"jobs/{OWN_JOB}.html"} <= marked
    assert {"housings/zqhousing.html", f"plans/{OWN_CAR}--cvn-2p.html"} <= marked
    assert f"plans/{TANSY}--zqconverter.html" in marked
    assert not {"index.html", "vehicles/index.html", "converters/cvn-2a.html"} & marked
    assert "vehicles/ostrel-brindle-2020.html" in pages - marked
    assert b'class="private">private' in private["housings/index.html"]


@pytest.mark.parametrize(
    ("arguments", "private"),
    [
        (("which", "zqmake", "zqmodel"), True),
        (("which", "ostrel", "brindle"), False),
        (("why", OWN_CAR, "A.7"), True),
        (("why", "ostrel-brindle-2020", "A.7"), False),
        (("plan", OWN_CAR, "--converter", "cvn-2a"), True),
        (("plan", "ostrel-brindle-2020", "--converter", "zqconverter"), True),
        (("plan", "ostrel-brindle-2020", "--converter", "cvn-2a"), False),
        (("plan", OWN_CAR, "--converter", "cvn-2a", "--amplifier", "amn-600"), True),
        (("plan", OWN_JOB), True),
        (("plan", "tansy-subwoofer"), True),  # of the shared car's private stand-in
    ],
)
def test_a_terminal_says_what_is_for_this_shop_only(shop, arguments, private):
    said = loombook(*arguments, "--book", shop).output
    assert said and "Error" not in said
    assert ("private" in said) == private, said


def test_a_build_with_private_records_warns_whoever_would_publish_it(private, public):
    assert "build with --public" in private.said
    assert public.said and "--public" not in public.said


def findings(book: Path, public: bool = False) -> list[tuple[str, str, str]]:
    found = check_book(open_book(book, public)).findings
    return [(f.rule_id, f.severity.word, f.file) for f in found]


def test_the_shop_s_book_is_in_order(shop):
    assert not check_book(open_book(shop)).failing
    assert not check_book(open_book(shop, public=True)).failing


@pytest.fixture
def own(tmp_path: Path) -> Path:
    return shop_book(tmp_path / "own")


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


def test_the_same_id_twice_is_a_stop_unless_the_record_says_that_it_replaces(own):
    place = own / "zqfolder" / "vehicles" / "zqmaker" / f"{TANSY}.yaml"
    change(place, f"replaces: {{id: {TANSY}, reason: zqreplaced by ours}}\n", "")
    assert [f[:2] for f in findings(own) if f[0] == "PIN113"] == [("PIN113", "stop")]
    converter = own / "zqfolder" / "converters" / "cvn-2p.yaml"
    shutil.copy(own / "shared" / "converters" / "cvn-2p.yaml", converter)
    assert ("BOK102", "stop") in [f[:2] for f in findings(own)]
    change(
        converter, "id: cvn-2p", "id: cvn-2p\nreplaces: {id: cvn-2p, reason: ours hums a little}"
    )
    assert "BOK102" not in [f[0] for f in findings(own)]


def test_replacing_needs_a_reason(own):
    place = own / "zqfolder" / "vehicles" / "zqmaker" / f"{TANSY}.yaml"
    change(place, ", reason: zqreplaced by ours}", "}")
    assert ("SCH102", "stop") in [f[:2] for f in findings(own)]


def test_a_record_that_replaces_nothing_is_found_at_its_place(own):
    place = own / "zqfolder" / "vehicles" / "zqmaker" / f"{TANSY}.yaml"
    change(place, f"id: {TANSY}, reason", "id: ostrel-gone, reason")
    (found,) = [f for f in check_book(open_book(own)).findings if f.rule_id == "BOK103"]
    assert found.file.endswith(f"zqfolder/vehicles/zqmaker/{TANSY}.yaml")
    assert place.read_text("utf-8").splitlines()[found.line - 1].startswith("replaces:")
    assert '"ostrel-gone"' in found.message


def test_a_shared_record_cannot_replace(own):
    said = "replaces: {id: three-core-18, reason: it is thicker than that}"
    change(own / "shared" / "cables" / "twin-16.yaml", "\ndata:", f"\n{said}\ndata:")
    (found,) = [f for f in findings(own) if f[0] == "BOK103"]
    assert found[2].endswith("shared/cables/twin-16.yaml")


def test_a_shared_record_that_names_a_private_one_is_stopped_before_it_is_published(own):
    car = own / "shared" / "vehicles" / "ostrel" / "ostrel-brindle-2020.yaml"
    text = car.read_text("utf-8")
    change(car, re.findall(r"housing: (\S+)", text)[0], "zqhousing")
    job = own / "shared" / "jobs" / "tansy-subwoofer.yaml"
    change(job, "converter: cvn-2a", "converter: zqconverter")
    names = [f[2].rsplit("/", 1)[1] for f in findings(own) if f[:2] == ("BOK105", "stop")]
    assert set(names) == {"ostrel-brindle-2020.yaml", "tansy-subwoofer.yaml"}
    assert {"PIN108", "TOP101"} <= {f[0] for f in findings(own, public=True)}


def test_a_missing_shared_folder_is_a_stop_and_a_missing_private_one_a_warning(own):
    shutil.rmtree(own / "zqfolder")
    assert [f[:2] for f in findings(own) if f[0] == "BOK104"] == [("BOK104", "warn")]
    assert "BOK104" not in [f[0] for f in findings(own, public=True)]
    change(own / "book.yaml", "path: shared", "path: sharde")
    (found,) = [f for f in check_book(open_book(own)).findings if f.fails_check]
    assert (found.rule_id, found.line) == ("BOK104", 3)


def test_what_lies_in_a_private_folder_is_private_wherever_that_lies(own):
    hidden = own / "shared" / "vehicles" / "hidden"
    shutil.move(own / "zqfolder", hidden)
    change(own / "book.yaml", "zqfolder", "shared/vehicles/hidden")
    names = [file.path.stem for file in open_book(own, public=True).files()]
    assert OWN_CAR not in names and names.count(TANSY) == 1
    (own / "shared" / "cables" / "linked.yaml").symlink_to(hidden / "cables" / "zqcable.yaml")
    names = [file.path.stem for file in open_book(own, public=True).files()]
    assert "linked" not in names and "zqcable" not in names


def test_the_settings_may_be_called_loombook_yaml_but_not_both(own):
    shutil.move(own / "book.yaml", own / "loombook.yaml")
    assert open_book(own).site_name == "North bay"
    assert not check_book(open_book(own)).failing
    shutil.copy(own / "loombook.yaml", own / "book.yaml")
    done = loombook("check", own)
    assert done.exit_code == 2
    assert "both book.yaml and loombook.yaml" in done.output


def test_find_and_show_call_a_private_record_private(shop):
    found = loombook("find", "ground", "-b", shop)
    heads = [line for line in found.output.splitlines() if re.search(r"\(\S+\)", line)]
    marked = {re.search(r"\((\S+)\)", line)[1] for line in heads if line.endswith("   private")}
    assert marked == {OWN_CAR, TANSY}
    assert any(not line.endswith("private") for line in heads)
    data = json.loads(loombook("find", "ground", "-b", shop, "--format", "json").output)
    assert {one["vehicle"] for one in data["answers"] if one["private"]} == marked
    for record, private in ((OWN_CAR, True), ("ostrel-brindle-2020", False)):
        shown = loombook("show", record, "-b", shop).output.splitlines()[1]
        assert shown.endswith(", private: for this shop only") is private
        data = json.loads(loombook("show", record, "-b", shop, "--format", "json").output)
        assert data["private"] is private


def test_the_finder_of_a_site_knows_which_records_are_private(private, public):
    def places(site: dict[str, bytes]) -> list[int]:
        index = site["assets/finder-data.js"].decode()
        return json.loads(index.removeprefix("window.loombookFinderData=").rstrip(";\n"))["private"]

    assert len(places(private)) == 2
    assert places(public) == []


def test_a_plan_that_names_a_private_interface_is_for_this_shop_only(tmp_path):
    book = shop_book(tmp_path / "book")
    place = book / "zqfolder" / "interfaces" / "zqinterface.yaml"
    asked = ("plan", "ostrel-brindle-2020", "--converter", "cvn-2a", "--book", book)
    plan = "plans/ostrel-brindle-2020--cvn-2a.html"
    assert "private" not in loombook(*asked).output
    assert plan not in private_urls(check_book(open_book(book)))
    change(place, "plugs: [two-row-20-latch-top,", "plugs: [staggered-10-latch-right,")
    said = loombook(*asked).output
    assert "private" in said and "zqinterface" in said
    assert plan in private_urls(check_book(open_book(book)))


@pytest.mark.parametrize(
    ("place", "before", "after", "line"),
    [
        ("looms/straight-16.yaml", "housing: two-row-16-latch-bottom", "housing: zqhousing", 13),
        ("interfaces/ok-7n.yaml", "[two-row-20-latch-top,", "[zqhousing,", 14),
        (
            "housings/two-row-12-latch-top.yaml",
            "[two-row-12-inline",
            "[zqhousing, two-row-12-inline",
            16,
        ),
    ],
)
def test_no_shared_part_names_a_private_one(tmp_path, place, before, after, line):
    book = shop_book(tmp_path / "book")
    change(book / "shared" / place, before, after)
    found = [each for each in check_book(open_book(book)).findings if each.rule_id == "BOK105"]
    assert [(each.line, "zqhousing" in each.message) for each in found] == [(line, True)]
