"""`evidence add`: a sheet into the records, whole or not at all, and what it changes."""

from __future__ import annotations

import json
import re
from difflib import unified_diff

import pytest
import yaml
from evidence_book import BRINDLE, JOB, TANSY, job_file, sheet_file, small_book, texts, vehicle_file
from killing import killed_at, stopped_at
from shipped_book import loombook

from builder.book import open_book
from builder.pipeline.answers.visit_changes import GradeChange
from builder.pipeline.changing import empty_sheets
from builder.pipeline.changing.evidence import added_evidence, write_evidence
from builder.rendering.evidence_text import grade_lines

TURN_ON = (
    "{plug: A, cavity: 11, state: radio_on_zero, load: 50ma, "
    "quantity: dc_v, value: 11.9, battery_v: 12.4}"
)
ASLEEP_LIVE = (
    "{plug: A, cavity: 4, state: asleep, minutes: 65, "
    "quantity: dc_v, value: 12.61, battery_v: 12.62}"
)
ACROSS = "{pair: front-left, state: unplugged, quantity: ohm, value: 3.3}"
OF_JOB = f"vehicle: {TANSY}\njob: {JOB}"


@pytest.fixture
def book(tmp_path):
    return small_book(tmp_path / "book")


def add(book, sheet, *options):
    return loombook("evidence", "add", sheet, "--book", book, *options)


def added_as_data(book, sheet, *options):
    done = add(book, sheet, "--format", "json", *options)
    return json.loads(done.output), done.exit_code


def only_additions(old: str, new: str) -> list[str]:
    """The lines that came; fails when one went."""
    changes = unified_diff(old.splitlines(), new.splitlines(), n=0, lineterm="")
    body = [line for line in changes if not line.startswith(("---", "+++", "@@"))]
    assert all(line.startswith("+") for line in body), body
    return [line[1:] for line in body]


def test_what_was_read_is_a_visit_of_its_own_and_nothing_else_moves(book, tmp_path):
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}", ACROSS)
    others = texts(book)
    done = add(book, sheet)
    assert "A.1: plug off: 3.30 Ω" in done.output
    (name,) = (path.stem for path in (book / "visits" / TANSY).glob("third-bay-*"))
    assert re.fullmatch("third-bay-2025-11-02-zz1-[0-9a-f]{6}", name)
    text = (book / "visits" / TANSY / f"{name}.yaml").read_text("utf-8")
    assert f"id: {name}\ndata: invented\nvehicle: {TANSY}\n" in text
    assert text.endswith(
        "  - plug: A\n    cavity: 1\n    readings:\n"
        f"      - {{session: {name}, state: unplugged, against: 2, quantity: ohm, value: 3.3}}\n"
    )
    assert texts(book) == {**others, f"{name}.yaml": text.encode()}
    assert loombook("tidy", "--check", "-b", book).exit_code == 0


def test_amperes_stay_beside_the_volts_and_what_both_are_is_judged(book, tmp_path):
    read = "{test: sub-amp-supply-drop, value: 0.11, current_a: 18.1}"
    done = add(book, sheet_file(tmp_path / "s.yaml", OF_JOB, results=(read,)))
    assert done.exit_code == 0, done.output
    assert "value: 0.11, current_a: 18.1, " in job_file(book).read_text("utf-8")
    bad = "{test: sub-amp-supply-drop, value: 0.11, current_a: 5}"
    done = add(book, sheet_file(tmp_path / "t.yaml", OF_JOB, results=(bad,)))
    assert "22.0 mΩ (at most 9.19 mΩ)" in done.output
    none = "{test: sub-amp-supply-drop, value: 0.11, current_a: 0}"
    done = add(book, sheet_file(tmp_path / "u.yaml", OF_JOB, results=(none,)))
    assert done.exit_code == 1 and "current_a" in done.output


def accepted(book):
    """Accept what the sheet will prove, as records did while thinness had to be accepted."""
    path = vehicle_file(book, BRINDLE)
    line = (
        "  - {rule: EVD102, at: A.11, reason: not yet measured with a load, who: quayside-fitters}"
    )
    text = path.read_text("utf-8")
    assert "\naccept: []\n" in text
    path.write_text(text.replace("\naccept: []\n", f"\naccept:\n{line}\n"), "utf-8")
    return line


def test_the_grade_rises_and_a_plan_can_be_built_since(book, tmp_path):
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {BRINDLE}", TURN_ON)
    said, _ = added_as_data(book, sheet)
    (grade,) = said["grades"]
    assert (grade["place"], grade["before"], grade["after"]) == ("A.11", "check first", "good")
    assert not grade["fell"]
    assert {"kind": "plan", "name": "cvn-2p", "before": "probe_plan", "after": "tap_plan"} in said[
        "now_possible"
    ]
    assert said["recalled"] == []
    shown = json.loads(loombook("show", BRINDLE, "--book", book, "--format", "json").output)
    graded = {f"{g['plug']}.{g['cavity']}": g["grade"] for g in shown["computed"]["grades"]}
    assert graded["A.11"] == "good"


def test_a_reported_grade_change_has_the_size_that_the_record_shows(book, tmp_path):
    """A change of the size that no test noticed once: it is what `show` says before and after.

    A visit that moves a score within its band is reported too, and a pin that moved in neither
    is not.
    """

    def scores():
        said = json.loads(loombook("show", TANSY, "--book", book, "--format", "json").output)
        return {
            f"{one['plug']}.{one['cavity']}": (one["grade"], one["score"])
            for one in said["computed"]["grades"]
        }

    before = scores()
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}", ACROSS, TURN_ON)
    said, _ = added_as_data(book, sheet)
    after = scores()
    moved = {pin: (before[pin], after[pin]) for pin in before if before[pin] != after[pin]}
    assert {
        one["place"]: (
            (one["before"], round(one["score_before"], 4)),
            (one["after"], round(one["score_after"], 4)),
        )
        for one in said["grades"]
    } == moved
    assert moved and set(moved) < set(before)


def test_a_grade_change_is_printed_with_both_scores_and_whether_it_fell():
    changes = [
        GradeChange("A.4", "accessory", "good", 0.78, "check first", 0.5),
        GradeChange("A.5", "ground", "good", 0.78, "good", 0.84),
        GradeChange("A.6", "ground", "good", 0.84, "good", 0.78),
        GradeChange("A.7", "ground", "unproved", 0.2, "proven", 0.95),
    ]
    assert list(grade_lines(changes)) == [
        "  A.4: 0.78 good -> 0.50 check first (fell)",
        "  A.5: 0.78 good -> 0.84 good",
        "  A.6: 0.84 good -> 0.78 good (fell)",
        "  A.7: 0.20 unproved -> 0.95 proven",
    ]


def test_an_acceptance_that_the_evidence_made_needless_is_named_and_fix_deletes_it(book, tmp_path):
    path = vehicle_file(book, BRINDLE)
    loombook("mend", "--visits", path, "-b", book)
    line = accepted(book)
    done = add(book, sheet_file(tmp_path / "s.yaml", f"vehicle: {BRINDLE}", TURN_ON))
    told = path.read_text("utf-8")
    number = told.splitlines().index(line) + 1
    assert done.exit_code == 3 and f"{BRINDLE}.yaml:{number}:" in done.output
    assert "fix BOK110 accepts EVD102 at A.11" in done.output
    assert loombook("mend", "--book", book).exit_code == 0
    assert path.read_text("utf-8") == told.replace(f"accept:\n{line}\n", "accept: []\n")
    assert loombook("check", book).exit_code == 0


def test_what_speaks_against_the_record_is_a_dispute_and_is_recalled(book, tmp_path):
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}", ASLEEP_LIVE)
    said, code = added_as_data(book, sheet)
    assert code == 3  # the book has a disputed pin to mend now
    (conflict,) = said["conflicts"]
    assert conflict["place"] == "A.4" and conflict["disputed"]
    assert "third-bay" in conflict["said"] and "DC volts" in conflict["decides"]
    # No plan of this car stands while a pin of it is disputed; recalled are those that use it.
    assert said["recalled"]
    assert all(one["after"] != "tap_plan" for one in [*said["recalled"], *said["plans"]])
    assert all(one["places"] == ["A.4"] for one in said["recalled"])


def test_a_job_built_on_a_pin_that_fell_is_recalled_with_its_day(book, tmp_path):
    text = job_file(book).read_text("utf-8")
    done = "results: [{test: battery-rest, value: 12.5, by: third-bay, date: 2025-03-04}]"
    job_file(book).write_text(text.replace("results: []", done), "utf-8")
    wrong = "{plug: A, cavity: 7, state: retained, quantity: dc_v, value: 0.02, battery_v: 12.4}"
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}", wrong)
    said, _ = added_as_data(book, sheet, "--dry-run")
    (job,) = [one for one in said["recalled"] if one["kind"] == "job"]
    assert (job["name"], job["places"], job["built"]) == (JOB, ["A.7"], "2025-03-04")


def test_a_dry_run_says_the_same_and_writes_nothing(book, tmp_path):
    sheet = sheet_file(
        tmp_path / "s.yaml", OF_JOB, ACROSS, results=("{test: battery-rest, value: 12.4}",)
    )
    before = texts(book)
    dry, _ = added_as_data(book, sheet, "--dry-run")
    assert texts(book) == before
    wet, _ = added_as_data(book, sheet)
    assert dry["dry_run"] and not dry["added"] and wet["added"]
    for key in ("readings", "results", "grades", "plans", "files", "session"):
        assert dry[key] == wet[key]


def test_adding_a_sheet_twice_changes_nothing_and_says_so(book, tmp_path):
    sheet = sheet_file(
        tmp_path / "s.yaml", OF_JOB, ACROSS, results=("{test: battery-rest, value: 12.4}",)
    )
    add(book, sheet)
    once = texts(book)
    again = add(book, sheet)
    assert texts(book) == once
    assert again.exit_code == 0
    assert "has all 2 lines of this sheet already: nothing changed" in again.output


def test_a_result_that_another_of_that_day_took_over_is_not_dropped_in_silence(book, tmp_path):
    good = sheet_file(tmp_path / "a.yaml", OF_JOB, results=("{test: battery-rest, value: 12.4}",))
    bad = sheet_file(tmp_path / "b.yaml", OF_JOB, results=("{test: battery-rest, value: 11.9}",))
    assert "later one of the same day" not in add(book, good).output
    add(book, bad)
    once = texts(book)
    again = add(book, good)
    assert texts(book) == once  # the sheet may be the one that was added before
    assert "battery-rest: this result is there already, before a later one" in again.output
    assert added_as_data(book, good)[0]["overtaken"] == ["battery-rest"]
    assert added_as_data(book, bad)[0]["overtaken"] == []


def test_a_longer_sheet_of_the_same_visit_adds_what_is_new_beside_it(book, tmp_path):
    add(book, sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}", ACROSS))
    once = texts(book)
    more = "{plug: A, cavity: 3, state: unplugged, against: body, quantity: ohm, value: open}"
    said, _ = added_as_data(
        book, sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}", ACROSS, more)
    )
    assert [one["place"] for one in said["readings"]] == ["A.3"]
    assert said["there_already"] == 1
    assert re.fullmatch("third-bay-2025-11-02-zz1-[0-9a-f]{6}", said["session"])
    now = texts(book)
    assert {name: now[name] for name in once} == once  # a visit is written once
    assert len(now) == len(once) + 1


def test_another_visit_of_that_day_is_a_file_of_its_own(book, tmp_path):
    place = tmp_path / "s.yaml"
    add(book, sheet_file(place, f"vehicle: {TANSY}", ACROSS))
    place.write_text(place.read_text("utf-8").replace("tag: zz1", "tag: zz2"), "utf-8")
    said, _ = added_as_data(book, place)
    assert re.fullmatch("third-bay-2025-11-02-zz2-[0-9a-f]{6}", said["session"])


@pytest.mark.parametrize(
    ("head", "line", "rule", "place", "words"),
    [
        (f"vehicle: {TANSY}x", ACROSS, "BAY101", "2:10", f"did you mean {TANSY}"),
        (f"vehicle: {BRINDLE}\njob: {JOB}", ACROSS, "BAY101", "3:6", f"type vehicle: {TANSY}"),
        (f"vehicle: {TANSY}", ASLEEP_LIVE.replace("A,", "Q,"), "BAY102", "11:12", "there are: A"),
        (f"vehicle: {TANSY}", ASLEEP_LIVE.replace("4", "44"), "BAY102", "11:23", "correct"),
        (f"vehicle: {TANSY}", ACROSS.replace("front-left", "centre"), "BAY102", "11:12", "both"),
        (
            f"vehicle: {TANSY}",
            "{fuse_position: F99, state: run, quantity: dc_v, value: 12, battery_v: 12}",
            "BAY102", "11:21", "there are: ",
        ),
        (f"vehicle: {TANSY}", "{cavity: 4, state: run}", "SCH102", "11:5", "missing"),
    ],
)  # fmt: skip
def test_a_sheet_that_does_not_fit_is_refused_at_its_place(
    book, tmp_path, head, line, rule, place, words
):
    before = texts(book)
    done = add(book, sheet_file(tmp_path / "s.yaml", head, line))
    assert done.exit_code == 1
    assert f"s.yaml:{place}: stop {rule}" in done.output
    assert words in done.output and "nothing was added" in done.output
    assert texts(book) == before


def test_a_result_of_no_line_is_refused_with_the_nearest_name(book, tmp_path):
    results = ("{test: batery-rest, value: 12.4}",)
    done = add(book, sheet_file(tmp_path / "s.yaml", OF_JOB, results=results))
    assert "stop BAY103" in done.output and "did you mean battery-rest?" in done.output


def test_an_empty_sheet_is_refused(book, tmp_path):
    done = add(book, sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}"))
    assert done.exit_code == 1 and "BAY105" in done.output


def test_a_sheet_of_another_state_is_added_with_a_warning(book, tmp_path):
    sheet = sheet_file(tmp_path / "s.yaml", f'{OF_JOB}\nrecord: "00000000"', ACROSS)
    done = add(book, sheet)
    assert "s.yaml:4:9: warn BAY104" in done.output and "written: " in done.output


def test_a_sheet_of_todays_state_has_no_warning(book, tmp_path):
    empty = loombook("new", "bay-sheet", JOB, "--dry-run", "--book", book).output
    record = next(line for line in empty.splitlines() if line.startswith("record: "))
    done = add(book, sheet_file(tmp_path / "s.yaml", f"{OF_JOB}\n{record}", ACROSS))
    assert "BAY104" not in done.output and "written: " in done.output


def test_line_ends_and_byte_order_mark_stay(book, tmp_path):
    path = job_file(book)
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    read = ("{test: battery-rest, value: 12.4}",)
    add(book, sheet_file(tmp_path / "s.yaml", OF_JOB, ACROSS, results=read))
    data = path.read_bytes()
    assert data.startswith(b"\xef\xbb\xbf") and b"third-bay" in data
    assert data.count(b"\n") == data.count(b"\r\n")


def test_killed_at_any_step_each_record_is_old_or_new_and_adding_again_completes(book, tmp_path):
    sheet = sheet_file(
        tmp_path / "s.yaml", OF_JOB, ACROSS, results=("{test: battery-rest, value: 12.4}",)
    )
    before = loombook("check", book).exit_code
    added = added_evidence(open_book(book), sheet)
    old = {edit.file.path: edit.old and edit.old.encode() for edit in added.edits}
    new = {edit.file.path: edit.new.encode() for edit in added.edits}
    assert len(old) == 2
    number, seen = 1, set()
    while True:
        for path, text in old.items():
            put(path, text)
        killed = killed_at(number, lambda: write_evidence(added))
        state = tuple(held(path) == new[path] for path in old)
        assert all(held(path) in (old[path], new[path]) for path in old)
        seen.add(state)
        if not killed:
            break
        number += 1
    assert number > 10
    assert seen == {(False, False), (True, False), (True, True)}  # the visit first
    first, second = old
    put(first, new[first])
    put(second, old[second])
    assert loombook("check", book).exit_code == before
    again, _ = added_as_data(book, sheet)
    assert [one["test"] for one in again["results"]] == ["battery-rest"]
    assert again["readings"] == []
    assert all(path.read_bytes() == new[path] for path in new)


def held(path):
    return path.read_bytes() if path.exists() else None


def put(path, content):
    """Make a file hold this; None for no file."""
    path.unlink(missing_ok=True)
    if content is not None:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)


@pytest.mark.parametrize("number", range(1, 14))
def test_an_error_at_any_step_leaves_all_old_and_no_litter(book, tmp_path, number):
    sheet = sheet_file(
        tmp_path / "s.yaml", OF_JOB, ACROSS, results=("{test: battery-rest, value: 12.4}",)
    )
    added = added_evidence(open_book(book), sheet)
    names = sorted(path.name for path in book.rglob("*"))

    def fail():
        raise OSError(28, "no space left on the disk")

    try:
        with stopped_at(number, fail, ("open", "write", "fsync", "replace", "chmod")):
            write_evidence(added)
    except OSError:
        assert all(held(edit.file.path) == (edit.old and edit.old.encode()) for edit in added.edits)
        assert sorted(path.name for path in book.rglob("*")) == names
    else:
        assert all(held(edit.file.path) == edit.new.encode() for edit in added.edits)
        new = {"visits", TANSY, added.edits[0].file.path.name}
        assert {path.name for path in book.rglob("*")} == {*names, *new}


def test_a_record_that_changed_meanwhile_is_left_alone(book, tmp_path):
    sheet = sheet_file(
        tmp_path / "s.yaml", OF_JOB, ACROSS, results=("{test: battery-rest, value: 12.4}",)
    )
    added = added_evidence(open_book(book), sheet)
    job_file(book).write_bytes(job_file(book).read_bytes() + b"# mine\n")
    before = texts(book)
    with pytest.raises(Exception, match="changed meanwhile"):
        write_evidence(added)
    assert texts(book) == before


BY_NUMBERS = ("read_from: wire_side", "read_from: moulded")
PROOF = "{plug: A, cavity: 11, state: radio_on_zero, quantity: dc_v, value: 6.5, battery_v: 12.5}"
TO_BODY = "{plug: A, cavity: 11, state: unplugged, against: body, quantity: ohm, value: open}"


def moulded(place, *lines, **rest):
    """A sheet whose cavities are those that it prints."""
    sheet = sheet_file(place, OF_JOB, *lines, **rest)
    sheet.write_text(sheet.read_text("utf-8").replace(*BY_NUMBERS), "utf-8")
    return sheet


def test_a_reading_of_a_pin_is_the_result_of_its_line(book, tmp_path):
    """By hand nobody writes a figure twice; a phone does, and its own result stands."""
    old = len(open_job(book)["results"])
    assert add(book, moulded(tmp_path / "s.yaml", PROOF, TO_BODY)).exit_code in (0, 3)
    came = {each["test"]: each for each in open_job(book)["results"][old:]}
    assert came["a-11-radio-on"]["value"] == 6.5
    assert came["a-11-ohms-to-body"]["passed"] is True
    assert len(came) == 2
    again = add(book, moulded(tmp_path / "s.yaml", PROOF, TO_BODY))
    assert "nothing changed" in again.output, again.output


@pytest.mark.parametrize(
    "other",
    [
        PROOF.replace("radio_on_zero", "accessory"),
        PROOF.replace("quantity", "load: lamp_0.4a, quantity"),
        PROOF.replace("cavity: 11", "cavity: 1"),
        TO_BODY.replace("against: body", "against: 13"),
    ],
)
def test_another_reading_is_the_result_of_no_line(book, tmp_path, other):
    old = len(open_job(book)["results"])
    add(book, moulded(tmp_path / "s.yaml", other))
    assert "a-11-radio-on" not in [x["test"] for x in open_job(book)["results"][old:]]
    assert "a-11-ohms-to-body" not in [x["test"] for x in open_job(book)["results"][old:]]


def test_a_cavity_that_was_counted_otherwise_is_the_result_of_no_line(book, tmp_path):
    add(book, sheet_file(tmp_path / "s.yaml", OF_JOB, PROOF))
    assert open_job(book)["results"] == []


def test_a_result_that_is_written_beside_its_reading_stands(book, tmp_path):
    line = "{test: a-11-radio-on, value: 6.4}"
    add(book, moulded(tmp_path / "s.yaml", PROOF, results=(line,)))
    assert [x["value"] for x in open_job(book)["results"]] == [6.4]


def test_a_sheet_of_a_job_with_one_list_left_as_it_was_is_added(book, tmp_path):
    """Its head says to leave the other lines as they are."""
    sheet = tmp_path / "s.yaml"
    loombook("new", "bay-sheet", JOB, "-o", sheet, "--book", book)
    text = sheet.read_text("utf-8").replace("  by:  ", "  by: third-bay").replace(
        "  date:  ", "  date: 2025-11-02"
    )  # fmt: skip
    line = "# - {plug: A, cavity: 11, state: radio_on_zero, quantity: dc_v, value: , battery_v: }"
    assert line in text and "passed: yes in place of value" in text
    assert "test: a-11-radio-on" not in text  # its reading counts
    sheet.write_text(text.replace(line, f"- {PROOF}"), "utf-8")
    done = add(book, sheet)
    assert "a-11-radio-on: 6.5" in done.output, done.output
    sheet.write_text(text, "utf-8")
    assert "holds no reading and no result" in add(book, sheet).output


def test_while_lines_are_open_nothing_is_asked_that_is_ahead_of_the_work(book, tmp_path):
    """A ground that fails is looked for dead, and by no loud music, before anything is powered."""
    begun = ("begin", JOB, "--by", "third-bay", "--date", "2025-11-02", "--book", book)
    assert loombook(*begun).exit_code == 0
    add(book, moulded(tmp_path / "s.yaml", results=("{test: ground-ohms, value: 0.9}",)))
    said = loombook("show", JOB, "--book", book).output
    asked = said.split("ground-ohms: any one of these makes it fail")[1].split("Pins that are")[0]
    assert "make whole what runs from sub amp GND to ground point" in asked
    assert not any(each in asked for each in ("loudest", "engine on", "radio on"))


def open_job(book):
    return yaml.safe_load(job_file(book).read_text("utf-8"))


def test_an_empty_sheet_filled_by_hand_is_added(book, tmp_path):
    place = tmp_path / "by-hand.yaml"
    done = loombook("new", "bay-sheet", BRINDLE, "-o", place, "--book", book)
    assert done.exit_code == 0 and "3 lines to fill" in done.output
    assert loombook("new", "bay-sheet", BRINDLE, "-o", place, "--book", book).exit_code == 2
    assert add(book, place).exit_code == 1  # not filled in yet
    text = place.read_text("utf-8")
    line = next(line for line in text.splitlines() if "cavity: 11," in line)
    filled = line.replace("# -", "-").replace("value: ,", "value: 11.9,")
    for old, new in (
        ("by: ", "by: third-bay"), ("date: ", "date: 2025-11-02"), ("{tag: }", "{tag: zz1}"),
        (line, filled.replace("battery_v: }", "battery_v: 12.4}")),
    ):  # fmt: skip
        assert old in text
        text = text.replace(old, new, 1)
    place.write_text(text, "utf-8")
    said, _ = added_as_data(book, place)
    assert [one["place"] for one in said["readings"]] == ["A.11"]


@pytest.mark.parametrize("typed", ["OL", "O.L", "inf"])
def test_what_a_meter_shows_when_nothing_is_joined_is_told_how_it_is_typed(book, tmp_path, typed):
    of_ohms = TO_BODY.replace(TO_BODY.split("value: ")[1].rstrip("}"), f'"{typed}"')
    said = add(book, moulded(tmp_path / "s.yaml", of_ohms))
    assert said.exit_code == 1 and "help: type open." in said.output, said.output


def test_a_car_of_which_no_reading_is_waited_for_gets_no_sheet(book, tmp_path, monkeypatch):
    """An empty sheet would send somebody to the car with nothing to read there."""
    monkeypatch.setattr(empty_sheets, "_plans", lambda standing: [])
    monkeypatch.setattr(empty_sheets, "_waiting_for", lambda standing: ())
    place = tmp_path / "none.yaml"
    said = loombook("new", "bay-sheet", BRINDLE, "-o", place, "--book", book)
    assert said.exit_code == 1 and "no sheet is written" in said.output
    assert not place.exists()
