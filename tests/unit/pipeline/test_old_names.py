"""What was renamed is found by its old name: in records, commands, pages and sheets."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.shell_completion import ShellComplete
from evidence_book import BRINDLE, JOB, job_file, sheet_file, small_book, vehicle_file
from shipped_book import loombook
from test_new_mend_tidy import CAR, options

from builder.book import open_book
from builder.cli import main

OLD_CAR, OLD_CONVERTER, OLD_JOB, OLD_SHOP = "ostrel-heath-2020", "nn-1", "first-job", "north-bay"
SHOP = "quayside-fitters"


def renamed_book(folder: Path, *lines: str) -> Path:
    """The small book with a table of old names."""
    book = small_book(folder)
    converter = re.search(r"^converter: (\S+)$", job_file(book).read_text("utf-8"), re.M)
    assert converter
    told = [
        f"{{kind: vehicle, was: {OLD_CAR}, now: {BRINDLE}}}",
        f"{{kind: converter, was: {OLD_CONVERTER}, now: {converter[1]}}}",
        f"{{kind: job, was: {OLD_JOB}, now: {JOB}}}",
        f"{{kind: contributor, was: {OLD_SHOP}, now: {SHOP}}}",
        *lines,
    ]
    text = "".join(f"  - {one}\n" for one in told)
    (book / "book.yaml").write_text(f"schema: 1\nrenamed:\n{text}", "utf-8")
    return book


def use_old_names(book: Path) -> None:
    """Write the job with the old name of its converter, and a car with that of a shop."""
    path = job_file(book)
    text = re.sub(r"^(converter: )\S+$", rf"\1{OLD_CONVERTER}", path.read_text("utf-8"), flags=re.M)
    path.write_text(text, "utf-8")
    car = vehicle_file(book, BRINDLE)
    car.write_text(car.read_text("utf-8").replace(f"by: {SHOP}", f"by: {OLD_SHOP}", 1), "utf-8")


def findings(book: Path, rule: str) -> list[dict[str, object]]:
    found = json.loads(loombook("check", book, "--format", "json").stdout)["findings"]
    return [one for one in found if one["rule"] == rule]


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return renamed_book(tmp_path / "book")


# ---- in records ---------------------------------------------------------------------------------
def test_a_record_with_old_names_is_read_as_with_the_new(book):
    plain = json.loads(loombook("plan", JOB, "-b", book, "--format", "json").stdout)
    use_old_names(book)
    old = json.loads(loombook("plan", JOB, "-b", book, "--format", "json").stdout)
    noted = [one for one in old["findings"] if one["rule"] == "BOK108"]
    assert noted and old["kind"] == plain["kind"]
    assert [one for one in old["findings"] if one not in noted] == plain["findings"]
    assert {**old, "findings": []} == {**plain, "findings": []}


def test_each_old_name_is_a_note_at_its_place_and_fix_types_the_new(book):
    loombook("mend", "--visits", "--book", book)
    untouched = job_file(book).read_bytes(), vehicle_file(book, BRINDLE).read_bytes()
    use_old_names(book)
    noted = findings(book, "BOK108")
    job = next(one for one in noted if str(one["file"]).endswith(f"{JOB}.yaml"))
    line = job_file(book).read_text("utf-8").splitlines()[int(str(job["line"])) - 1]
    assert line[int(str(job["column"])) - 1 :] == OLD_CONVERTER
    assert {one["severity"] for one in noted} == {"note"}
    assert f'"{OLD_CONVERTER}" is now called "' in str(job["message"])
    assert len(noted) == 2 and any(OLD_SHOP in str(one["message"]) for one in noted)
    assert loombook("mend", "--book", book).exit_code == 0
    assert (job_file(book).read_bytes(), vehicle_file(book, BRINDLE).read_bytes()) == untouched
    assert findings(book, "BOK108") == []


def test_a_book_that_draws_on_the_renamed_one_goes_by_its_table(book, tmp_path):
    own = tmp_path / "ours"
    own.mkdir()
    (own / "jobs").mkdir()
    text = job_file(book).read_text("utf-8")
    text = re.sub(r"^(converter: )\S+$", rf"\1{OLD_CONVERTER}", text, flags=re.M)
    (own / "jobs" / "ours.yaml").write_text(text.replace(f"id: {JOB}", "id: ours"), "utf-8")
    (own / "book.yaml").write_text("schema: 1\nroots: [../book, .]\n", "utf-8")
    assert [str(one["file"])[-9:] for one in findings(own, "BOK108")] == ["ours.yaml"]
    assert loombook("show", OLD_CAR, "-b", own).exit_code == 0
    # A record of its own that has such an id stays what it is.
    converter = next((book / "converters").glob("[!T]*.yaml"))
    (own / "converters").mkdir()
    theirs = re.sub(r"^id: .*$", f"id: {OLD_CONVERTER}", converter.read_text("utf-8"), flags=re.M)
    (own / "converters" / f"{OLD_CONVERTER}.yaml").write_text(theirs, "utf-8")
    assert findings(own, "BOK108") == [] and findings(own, "BOK109") == []


def test_a_private_record_still_replaces_what_was_renamed(book, tmp_path):
    private = tmp_path / "private" / "vehicles" / "ostrel"
    private.mkdir(parents=True)
    text = vehicle_file(book, BRINDLE).read_text("utf-8")
    text = text.replace(f"id: {BRINDLE}", "id: our-own-car", 1)
    line = f"replaces: {{id: {OLD_CAR}, reason: our cars have another radio}}\n"
    (private / "our-own-car.yaml").write_text(text + line, "utf-8")
    settings = (book / "book.yaml").read_text("utf-8")
    roots = "roots: [., {path: ../private, visibility: private}]\n"
    (book / "book.yaml").write_text(settings + roots, "utf-8")
    shown = {file.path.stem for file in open_book(book).files()}
    assert "our-own-car" in shown and BRINDLE not in shown
    assert findings(book, "BOK103") == []
    assert [str(one["file"])[-16:] for one in findings(book, "BOK108")] == ["our-own-car.yaml"]


# ---- commands -----------------------------------------------------------------------------------
@pytest.mark.parametrize(
    "words",
    [
        ("show", OLD_CAR),
        ("plan", OLD_CAR, "-c", OLD_CONVERTER),
        ("plan", OLD_JOB),
        ("why", OLD_CAR, "A.9"),
        ("new", "bay-sheet", OLD_JOB, "--dry-run"),
    ],
)
def test_a_command_answers_for_the_new_name_and_says_so(book, words):
    now = {OLD_CAR: BRINDLE, OLD_JOB: JOB, OLD_CONVERTER: open_book(book).renamed[
        "converter", OLD_CONVERTER
    ]}  # fmt: skip
    new = [now.get(word, word) for word in words]
    done, plain = loombook(*words, "--book", book), loombook(*new, "--book", book)
    assert (done.exit_code, done.stdout) == (plain.exit_code, plain.stdout)
    assert plain.stdout and not plain.stderr
    for word in words:
        assert (f'"{word}" is now called "{now.get(word)}".' in done.stderr) == (word in now)


def test_find_and_which_take_old_ids(book):
    found = loombook("find", OLD_CAR, "constant", "-b", book)
    assert found.exit_code == 0 and f'"{OLD_CAR}" read as "{BRINDLE}"' in found.output
    assert "Brindle" in found.output
    listed = loombook("which", "ostrel", "heath", "-b", book)
    assert (
        listed.exit_code == 0 and '"ostrel heath" is now called "Ostrel Brindle".' in listed.stderr
    )
    assert loombook("which", "ostrel", "moss", "-b", book).exit_code == 2


def test_a_new_record_gets_no_old_id(book):
    plug = "A two-row-20-latch-top grey wire_side behind the radio"
    done = loombook(
        "new", "vehicle", *options({**CAR, "id": OLD_CAR, "plug": plug}), "--book", book
    )
    assert done.exit_code == 2 and "an old id is never used again" in done.output


def test_a_sheet_with_old_names_is_added_once(book, tmp_path):
    reading = (
        "{plug: A, cavity: 11, state: radio_on_zero, load: 50ma, "
        "quantity: dc_v, value: 11.9, battery_v: 12.4}"
    )
    sheet = sheet_file(tmp_path / "sheet.yaml", f"vehicle: {OLD_CAR}", reading)
    sheet.write_text(sheet.read_text("utf-8").replace("third-bay", OLD_SHOP), "utf-8")
    assert f"added to {BRINDLE}" in loombook("evidence", "add", sheet, "--book", book).output
    (visit,) = (book / "visits" / BRINDLE).glob("*-2025-11-02-*")
    text = visit.read_bytes()
    assert OLD_SHOP.encode() not in text and b"2025-11-02" in text
    assert loombook("evidence", "add", sheet, "--book", book).exit_code == 0
    there = (book / "visits" / BRINDLE).glob("*-2025-11-02-*")
    assert [path.read_bytes() for path in there] == [text]


def test_a_table_with_old_names_is_imported_with_the_new(book, tmp_path):
    filled = tmp_path / "car.csv"
    done = loombook("new", "table", filled, "--of", OLD_CAR, "--book", book)
    assert done.exit_code == 0 and f'"{OLD_CAR}" is now called "{BRINDLE}".' in done.stderr
    rows = filled.read_text("utf-8-sig")
    assert BRINDLE in rows and SHOP in rows
    filled.write_text(rows.replace(BRINDLE, OLD_CAR).replace(SHOP, OLD_SHOP), "utf-8")
    done = loombook("import", filled, "--into", book, "--replace", "--as-is", "--dry-run")
    assert f"id: {BRINDLE}" in done.stdout and f"by: {SHOP}" in done.stdout
    assert OLD_CAR not in done.stdout and OLD_SHOP not in done.stdout
    for was, now in ((OLD_CAR, BRINDLE), (OLD_SHOP, SHOP)):
        assert f'note BOK108 "{was}" is now called "{now}"' in done.stderr
    held = loombook("import", filled, "--into", book)
    assert held.exit_code == 1 and f"{BRINDLE}.yaml is there already" in held.stdout


def test_a_shell_completes_an_old_id_with_the_new(book, monkeypatch):
    monkeypatch.chdir(book)
    for words in (("why", OLD_CAR[:-2]), ("new", "table", "x.csv", "--of", OLD_CAR)):
        shell = ShellComplete(main, {}, "loombook", "_X")
        (item,) = shell.get_completions(list(words[:-1]), words[-1])
        assert (item.value, item.help) == (BRINDLE, f'"{OLD_CAR}" is now called "{BRINDLE}"')


def test_diff_takes_a_renamed_record_for_the_same(book, tmp_path):
    before = small_book(tmp_path / "before")
    for path in before.rglob("*.yaml"):
        text = path.read_text("utf-8").replace(BRINDLE, OLD_CAR).replace(JOB, OLD_JOB)
        path.write_text(text, "utf-8")
        path.rename(path.with_name(path.name.replace(BRINDLE, OLD_CAR).replace(JOB, OLD_JOB)))
    (before / "visits" / BRINDLE).rename(before / "visits" / OLD_CAR)
    done = json.loads(loombook("diff", before, book, "--format", "json").stdout)
    assert {one["status"] for one in done["changed"]} == {"changed"}
    visits = [one for one in done["changed"] if one["kind"] == "visit"]
    told = [{"place": "vehicle", "what": "", "old": OLD_CAR, "new": BRINDLE}]
    assert [one["changes"] for one in visits] == [told, told]
    rest = [one for one in done["changed"] if one not in visits]
    assert {(one["kind"], one["name"]) for one in rest} <= {
        ("vehicle", BRINDLE), ("job", JOB), ("work pack", JOB),
    }  # fmt: skip


# ---- pages --------------------------------------------------------------------------------------
def test_old_addresses_lead_to_the_new_pages(book, tmp_path):
    site = tmp_path / "site"
    assert loombook("build", book, "-o", site).exit_code == 0
    converter = open_book(book).renamed["converter", OLD_CONVERTER]
    for was, now in {
        f"vehicles/{OLD_CAR}": f"vehicles/{BRINDLE}",
        f"converters/{OLD_CONVERTER}": f"converters/{converter}",
        f"jobs/{OLD_JOB}": f"jobs/{JOB}",
        f"plans/{OLD_CAR}--{OLD_CONVERTER}": f"plans/{BRINDLE}--{converter}",
        f"plans/{BRINDLE}--{OLD_CONVERTER}": f"plans/{BRINDLE}--{converter}",
        f"plans/{OLD_CAR}--{converter}": f"plans/{BRINDLE}--{converter}",
    }.items():
        document = (site / f"{was}.html").read_text("utf-8")
        target = f"{now.partition('/')[2]}.html"
        assert f'<meta http-equiv="refresh" content="0; url={target}">' in document
        assert (
            f'<a href="{target}">' in document
            and '<meta name="robots" content="noindex">' in document
        )
        assert "<script" not in document and len(document) < 1800
    kept = json.loads((site / "offline-files.json").read_text("utf-8"))
    assert f"vehicles/{OLD_CAR}.html" in kept["cars"]
    assert f"converters/{OLD_CONVERTER}.html" in kept["shared"]


def test_a_public_site_does_not_give_a_private_record_s_old_name_away(book, tmp_path):
    private = tmp_path / "private" / "converters"
    private.mkdir(parents=True)
    text = next((book / "converters").glob("[!T]*.yaml")).read_text("utf-8")
    (private / "zz-9.yaml").write_text(re.sub(r"^id: .*$", "id: zz-9", text, flags=re.M), "utf-8")
    settings = (book / "book.yaml").read_text("utf-8")
    more = "  - {kind: converter, was: zz-8, now: zz-9}\n"
    roots = "roots: [., {path: ../private, visibility: private}]\n"
    (book / "book.yaml").write_text(settings + more + roots, "utf-8")
    for extra, there in (((), True), (("--public",), False)):
        site = tmp_path / f"site{len(extra)}"
        done = loombook("build", book, "-o", site, *extra)
        assert done.exit_code == 0, done.output
        assert (site / "converters" / "zz-8.html").exists() == there
        told = [path for path in site.rglob("*") if path.is_file() and b"zz-8" in path.read_bytes()]
        assert bool(told) == there


# ---- the table itself ---------------------------------------------------------------------------
ASTRAY = [
    (f"was: {BRINDLE}, now: x", "was", "is given as an old id, and", "another id in"),
    (f"was: {OLD_CAR}, now: {BRINDLE}2", "was", "renamed twice", "delete one"),
    ("was: a-1, now: a-2", "now", 'has no vehicle "a-2"', "that it has today"),
    (f"was: a-1, now: {BRINDLE}0", "now", "has no vehicle", f"mean {BRINDLE}?"),
    (f"was: a-1, now: {OLD_CAR}", "now", "is an old id itself", f"now: {BRINDLE}"),
    ("was: a-1, now: a-1", "now", '"a-1" leads back to itself', "delete the line"),
]


@pytest.mark.parametrize(
    ("kind", "line", "at", "message", "advice"),
    [
        *(("vehicle", *one) for one in ASTRAY),
        ("contributor", "was: a-1, now: nobody", "now", 'no contributor "nobody"', "today"),
    ],
)
def test_a_line_that_leads_astray_is_a_finding_at_its_place(
    tmp_path, kind, line, at, message, advice
):
    line = f"{{kind: {kind}, {line}}}"
    book = renamed_book(tmp_path / "book", line)
    found = [one for one in findings(book, "BOK109") if message in str(one["message"])]
    assert len(found) == 1 and advice in str(found[0]["help"])
    text = (book / "book.yaml").read_text("utf-8").splitlines()[int(str(found[0]["line"])) - 1]
    assert text == f"  - {line}"
    assert text[: int(str(found[0]["column"])) - 1].endswith(f"{at}: ")
    assert loombook("check", book).exit_code == 1


def test_a_loop_of_two_is_told_of_on_both_lines_and_renames_nothing(tmp_path):
    loop = [f"{{kind: vehicle, was: {a}, now: {b}}}" for a, b in (("a-1", "a-2"), ("a-2", "a-1"))]
    book = renamed_book(tmp_path / "book", *loop)
    assert [one["line"] for one in findings(book, "BOK109")] == [7, 8]
    assert {name for _, name in open_book(book).renamed}.isdisjoint({"a-1", "a-2"})


def test_a_chain_is_followed_to_its_end(tmp_path):
    book = renamed_book(tmp_path / "book", f"{{kind: vehicle, was: a-1, now: {OLD_CAR}}}")
    assert open_book(book).renamed["vehicle", "a-1"] == BRINDLE


def test_a_table_without_fault_is_no_finding(book):
    assert findings(book, "BOK109") == [] and loombook("check", book).exit_code == 0


def test_the_state_of_a_book_changes_with_its_table(book):
    before = open_book(book).digest
    (book / "book.yaml").write_text("schema: 1\n", "utf-8")
    assert open_book(book).digest != before
