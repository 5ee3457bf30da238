"""The commands `new`, `mend` and `tidy` on a small book."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result
from killing import killed_at
from shipped_book import PINOUTS

from builder.book import open_book
from builder.cli.faces.creating import new
from builder.cli.faces.mending import mend, tidy
from builder.pipeline.changing.creating import new_record, write_new
from builder.pipeline.changing.mending import mended_book, write_mended
from builder.pipeline.checking.book_check import check_book

TANSY = "vehicles/ostrel/ostrel-tansy-2017-hatch-base.yaml"
PINS = (
    *("A 1 fl+ brown/white 0.75", "A 2 fl- brown/black 0.75", "A 3 fr + blue/white"),
    *("A 4 front-right - blue/black", "A 5 acc red", "A 6 gnd black 1.5", "A 8 empty"),
    *("A 7 constant yellow/red 14 awg", "A 9 unknown"),
)
CAR = {
    "make": "Zorvex",
    "model": "Wold",
    "years": "2018-2021",
    "variant": "hatch, base",
    "drive-side": "left",
    "data": "invented",
    "hybrid": "no",
    "factory-amplifier": "none",
    "restraint-zones": "steering wheel, roof rails",
    "protected-sounds": ["seat-belt chime: fl fr"],
    "plug": ["A 20:top grey wire_side behind the radio"],
    "pin": list(PINS),
}


@pytest.fixture
def book(small_book: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (small_book / "housings" / "block-c-20.yaml").unlink()  # one housing of twenty is left
    monkeypatch.chdir(small_book.parent)
    return small_book


def run(command, *arguments: object, typed: str | None = None) -> Result:
    done = CliRunner().invoke(command, [str(word) for word in arguments], input=typed)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done


def options(answers: dict[str, object]) -> list[str]:
    words = []
    for name, value in answers.items():
        for text in value if isinstance(value, list) else [value]:
            words += [f"--{name}", str(text)]
    return words


def test_a_new_vehicle_has_only_honest_findings(book):
    shutil.copytree(PINOUTS.parent / "schema", book / "schema")
    done = run(new, "vehicle", "-b", book, *options(CAR))
    path = book / "vehicles" / "zorvex" / "zorvex-wold-2018-hatch-base.yaml"
    text = path.read_text()
    assert text.startswith("# yaml-language-server: $schema=../../schema/vehicle.schema.json")
    assert (path.parent / text.split("$schema=")[1].split("\n")[0]).is_file()
    found = check_book(open_book(book)).findings
    mine = [finding for finding in found if "zorvex" in finding.file]
    assert {finding.rule_id for finding in mine if finding.stands_open} == {"EVD101"}
    assert done.exit_code == 0  # no supply has a reading: that is thin, and nothing is wrong
    assert "8 of 8 pins have no reading" in done.output
    assert run(new, "vehicle", "-b", book, *options(CAR)).exit_code == 2
    assert path.read_text() == text


def test_what_was_answered_stands_in_the_record(book):
    run(new, "vehicle", "-b", book, *options(CAR))
    data = yaml.load(
        (book / "vehicles/zorvex/zorvex-wold-2018-hatch-base.yaml").read_text(), yaml.BaseLoader
    )
    plug = data["plugs"][0]
    assert plug["housing"] == "two-row-20-latch-top"
    assert plug["empty"] == ["8"]
    assert plug["pins"][2] == {
        "cavity": "3",
        "function": "speaker",
        "channel": "front-right",
        "leg": "positive",
        "wire": {"base": "blue", "stripe": "white"},
    }
    assert plug["pins"][6]["wire"] == {"base": "yellow", "stripe": "red", "size_awg": "14"}
    assert [entry["channel"] for entry in data["channels"]] == ["front-left", "front-right"]
    assert data["protected_sounds"][0]["channels"] == ["front-left", "front-right"]
    assert data["radio"]["outputs"] == "unknown"
    assert data["safety"]["high_voltage_zones"] == []


def test_a_new_vehicle_with_claims_from_a_file_of_answers(book, tmp_path):
    file = tmp_path / "answers.yaml"
    answers = {name.replace("-", "_"): value for name, value in CAR.items()}
    answers["claims"] = "paper alder-pit-audio 2024-05-10"
    file.write_text(yaml.safe_dump(answers))
    run(new, "vehicle", "-b", book, "--answers", file, "--id", "wold-x")
    record = book / "vehicles" / "zorvex" / "wold-x.yaml"
    assert "{by: alder-pit-audio, date: 2024-05-10, method: paper, says: constant}" in (
        record.read_text()
    )
    mine = [f for f in check_book(open_book(book)).findings if "wold-x" in f.file]
    assert {finding.rule_id for finding in mine if finding.stands_open} == {"EVD102"}
    assert not any(finding.fails_check for finding in mine)  # paper is enough for a probe plan only


def test_lines_of_a_text_are_answers_and_each_that_is_wrong_is_named(book, tmp_path):
    file = tmp_path / "answers.yaml"
    lines = [*PINS, PINS[0], "A 10 acc bl/rd", "A 11 acc mauve"]  # a line alike counts once
    file.write_text(yaml.safe_dump({**CAR, "pin": "\n".join(lines), "id": "wold-y"}))
    done = run(new, "vehicle", "-b", book, "--answers", file)
    assert done.exit_code == 2
    assert '"bl" in "A 10 acc bl/rd" could be black or blue' in done.output
    assert '"mauve" in "A 11 acc mauve" is no colour' in done.output
    file.write_text(yaml.safe_dump({**CAR, "pin": "\n".join(lines[:-2]), "id": "wold-y"}))
    assert run(new, "vehicle", "-b", book, "--answers", file).exit_code == 0
    twice = "\n".join([*PINS, "A 1 ground black"])
    file.write_text(yaml.safe_dump({**CAR, "pin": twice, "id": "wold-z"}))
    done = run(new, "vehicle", "-b", book, "--answers", file)
    assert "A.1 is given twice, and not alike" in done.output


PARTS = {
    "cable": (
        {"name": "Twin 14", "use": "speaker_pair", "size": "14 awg", "jacket": "black"}
        | {"pairs": "red black", "singles": "none"},
        "cables/twin-14.yaml",
    ),
    "amplifier": (
        {"name": "ZEA 9", "maker": "Odmarsh", "class": "D", "channels": 4, "use": "full_range"}
        | {"power": "60 into 4, 85 into 2", "sensitivity": "0.25-4", "supply": "9 0.9 40"}
        | {"turn-on-draw": "12 mA"},
        "amplifiers/zea-9.yaml",
    ),
    "converter": (
        {"name": "ZEC 9", "maker": "Odmarsh", "kind": "active", "inputs": 2, "outputs": 2}
        | {"input-type": "floating", "input-max": "20 V", "input-ohm": "10 kohm", "sum": "any"}
        | {"gain": "0.05-2", "output-max": 8, "supply": "9 0.15 2", "remote-in": 8}
        | {"remote-out": 200, "bass-correction": "12 at 40"},
        "converters/zec-9.yaml",
    ),
    "housing": (
        {"name": "twelve shell", "seen-from": "wire_side", "latch": "top", "blade": 1.5}
        | {"rows": "1-6 / 12-7"},
        "housings/twelve-shell.yaml",
    ),
    "loom": (
        {"name": "Sixteen ways", "made": "bench", "branch": "branch 1, bare, 0.5"}
        | {
            "end": [
                "radio end, two-row-16-latch-bottom, radio, wire_side",
                "car end, two-row-16-inline-socket, car, wire_side",
            ],
            "wire": [
                "1-8 10, black, 0.75 mm2",
                "radio end.9 > branch 1, white/black, 18 awg, speaker",
                "car end.9 > branch 1, grey",
            ],
        },
        "looms/sixteen-ways.yaml",
    ),
    "interface": (
        {"name": "Reader 4", "maker": "Odmarsh", "bus": "one_wire", "supply": "9 3 2"}
        | {"plugs": "two-blade-14-latch-top"}
        | {"output": ["accessory 500 mA, after 1.5 s, held unknown", "amplifier_on 100"]},
        "interfaces/reader-4.yaml",
    ),
    "contributor": (
        {"name": "Odmarsh Bay Sound", "since": "2024-03-01"},
        "contributors/odmarsh-bay-sound.yaml",
    ),
}


@pytest.mark.parametrize("kind", PARTS)
def test_a_new_part_passes_the_check(book, kind):
    answers, place = PARTS[kind]
    done = run(new, kind, "-b", book, *options(answers))
    assert done.exit_code == 0, done.output
    assert (book / place).is_file()
    found = [f for f in check_book(open_book(book)).findings if Path(place).stem in f.file]
    assert {f.rule_id for f in found} == ({"LOM111"} if kind == "loom" else set())  # not rung out


def test_a_new_job_names_what_it_is_made_of(book):
    answers = {"title": "sub for tansy", "vehicle": "ostrel-tansy-2017-hatch-base", "car": "moss-9"}
    answers |= {"year": 2017, "wanted": "more bass", "protect": "none", "converter": "cvn-2a"}
    answers |= {"converter-place": "right side", "cables": "twin-16, three-core-18"}
    answers |= {"amplifier": "sub amp: amn-600, right luggage side"}
    answers |= {"speaker": "box: sub, 2 ohm, 500 w, sub amp 1, from rl rr, lead 1.2"}
    answers |= {
        "route": [
            "radio > converter: control, 6 m, right sill",
            "luggage trim > converter: signal, 1.8 m",
        ]
    }
    done = run(new, "job", "-b", book, *options(answers))
    assert (book / "jobs" / "sub-for-tansy.yaml").is_file(), done.output
    assert "SCH" not in done.output and "TOP101" not in done.output


def test_questions_are_asked_again_until_the_answer_can_be_taken(book):
    typed = "Twin 14\n\nspeaker\nspeaker_pair\nfat\n14 awg\n\nblack\nred\nred black\nnone\n\n"
    done = run(new, "cable", "-b", book, typed=typed)
    assert "is not one of the words: did you mean speaker_pair?" in done.output
    assert '"fat" is no number' in done.output and '"red" is no pair' in done.output
    assert (book / "cables" / "twin-14.yaml").is_file()


def test_plugs_are_asked_for_with_housings_of_that_size(book):
    given = {name: value for name, value in CAR.items() if name not in ("plug", "pin")}
    typed = "A\n20\ntop\n1\ngrey\nwire_side\n\n\nA 1 foo red\nA 1 acc red\n\n"
    done = run(new, "vehicle", "-b", book, *options(given), typed=typed)
    assert "1. two-row-20-latch-top: 20 cavities in rows of 10+10, latch top" in done.output
    assert '"foo" is no function' in done.output
    text = (book / "vehicles/zorvex/zorvex-wold-2018-hatch-base.yaml").read_text()
    assert "- {cavity: 1, function: accessory, wire: {base: red}}" in text


def test_an_answer_of_the_end_makes_nothing(book):
    before = sorted(book.rglob("*"))
    done = run(new, "vehicle", "-b", book, "--make", "Zorvex", typed="")
    assert done.exit_code == 1 and "Abort" in done.output
    assert sorted(book.rglob("*")) == before


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("years", "soon", "type 2016-2019"),
        ("drive-side", "middle", "left, right, both"),
        ("pin", "A 1 fl white", "which leg"),
        ("pin", "A 1 acc magenta", "no colour"),
        ("pin", "B 1 acc red", "no plug B"),
        ("pin", "A 1", "is not complete. One pin a line: A 4 acc"),
        ("plug", "A 99 grey wire_side", "is not one housing of the book"),
        ("protected-sounds", "chime", "which channels"),
        ("claims", "paper", "is not complete"),
    ],
)
def test_an_answer_that_cannot_be_taken_says_what_to_type(book, name, text, says):
    answers = {**CAR, name: [text] if name in ("pin", "plug", "protected-sounds") else text}
    done = run(new, "vehicle", "-b", book, *options(answers))
    assert done.exit_code == 2
    assert says in done.output
    assert not (book / "vehicles" / "zorvex").exists()


def test_fix_writes_what_it_says_and_a_dry_run_only_says_it(book):
    run(mend, "--visits", book)
    path = book / TANSY
    shipped = path.read_bytes()
    damaged = shipped.replace(b"base_load_a: 42", b"base_load_a: 42 A").replace(
        b"base: pink", b"base: Pink"
    )
    path.write_bytes(damaged)
    dry = run(mend, path, "-b", book, "--dry-run")
    assert dry.exit_code == 1
    assert "-  base_load_a: 42 A\n+  base_load_a: 42\n" in dry.output
    assert path.read_bytes() == damaged
    done = run(mend, path, "-b", book)
    assert done.exit_code == 0, done.output
    assert "2 mended in 1 file; nothing left to mend" in done.output
    assert path.read_bytes() == shipped
    assert run(mend, path, "-b", book).output.startswith("0 mended")


def test_fix_leaves_a_whole_clean_book_alone(book):
    run(mend, "--visits", book)
    before = {path: path.read_bytes() for path in book.rglob("*.yaml")}
    run(mend, book)
    assert {path: path.read_bytes() for path in book.rglob("*.yaml")} == before


def test_paths_outside_the_book_are_wrong_use(book):
    for command in (mend, tidy):
        assert run(command, "nowhere.yaml", "-b", book).exit_code == 2
        assert run(command, PINOUTS / TANSY, "-b", book).exit_code == 2


def test_tidy_check_names_the_line_and_tidy_mends_it(book):
    run(tidy, book)
    path = book / TANSY
    in_style = path.read_bytes()
    path.write_bytes(in_style.replace(b"model: Tansy", b"model:   Tansy").replace(b"\n", b"\r\n"))
    told = run(tidy, "--check", path, "-b", book)
    assert told.exit_code == 1
    assert f"{TANSY}:1: lines end in a carriage return" in told.output
    done = run(tidy, path, "-b", book)
    assert done.exit_code == 0 and "1 of 1 records" in done.output
    assert path.read_bytes() == in_style
    assert run(tidy, "--check", book).exit_code == 0


def test_format_refuses_what_it_cannot_read(book):
    path = book / TANSY
    path.write_text("a: [\n")
    done = run(tidy, path, "-b", book)
    assert done.exit_code == 1
    assert "left alone: line" in done.output
    assert path.read_text() == "a: [\n"
    assert not list(path.parent.glob(".*"))


def test_fix_killed_at_any_step_leaves_every_file_old_or_new(book):
    paths = [book / TANSY, book / "amplifiers" / "amn-4.yaml"]
    damage = {paths[0]: (b"base: pink", b"base: Pink"), paths[1]: (b"min_v: 9.0", b"min_v: 9.0 V")}
    shipped = {path: path.read_bytes() for path in paths}
    damaged = {path: shipped[path].replace(*damage[path]) for path in paths}
    for path in paths:
        path.write_bytes(damaged[path])
    opened = open_book(book)
    mended = mended_book(opened, [file for file in opened.files() if file.path in paths])
    files = [file.path for file in opened.files()]
    states, number = set(), 1
    while killed_at(number, lambda: write_mended(mended)):
        for path in paths:
            assert path.read_bytes() in (shipped[path], damaged[path])
        states.add(tuple(path.read_bytes() == shipped[path] for path in paths))
        assert [file.path for file in open_book(book).files()] == files
        for path in paths:
            path.write_bytes(damaged[path])
        number += 1
    assert {path: path.read_bytes() for path in paths} == shipped
    assert len(states) == 3  # none, the first, both


def test_new_killed_at_any_step_leaves_a_whole_record_or_none(book):
    opened = open_book(book)
    record = new_record(
        opened, "vehicle", {k: v if isinstance(v, list) else [v] for k, v in CAR.items()}
    )
    files = [file.path for file in opened.files()]
    number, made = 1, 0
    while killed_at(number, lambda: write_new(record)):
        found = [file.path for file in open_book(book).files() if file.path not in files]
        assert found in ([], [record.path])
        for path in found:
            assert path.read_text() == record.text
            path.unlink()
            made += 1
        number += 1
    assert number > 5 and made


def test_the_shipped_book_is_in_the_house_style():
    done = run(tidy, "--check", PINOUTS)
    assert done.exit_code == 0, f"run: loombook tidy\n{done.output}"
