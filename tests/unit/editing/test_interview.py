"""The interview of a new car: a slip loses its line and nothing else, and a kill loses nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml
from interviewed import RIGHT, Killed, Person, interview
from shipped_book import ROOT

from builder.book import open_book
from builder.cli.housing_prompting import show_housings, usual_housing
from builder.editing.drafts import AnswerError, draft
from builder.editing.interview.helping import help_lines
from builder.editing.interview.log import Log
from builder.editing.interview.steps import next_step, steps
from builder.pipeline.checking.shelf import housings_of

SLIPS = yaml.safe_load((ROOT / "tests" / "interview_slips.yaml").read_text("utf-8"))


@pytest.fixture
def book(small_book: Path) -> Path:
    (small_book / "housings" / "block-c-20.yaml").unlink()  # one housing of twenty is left
    return small_book


def right(book: Path) -> dict[str, list[str]]:
    answers = interview(book, Person())
    forget(book)
    return answers


def forget(book: Path) -> None:
    for path in (book / ".drafts").glob("*"):
        path.unlink()


def test_there_are_a_hundred_slips() -> None:
    assert len(SLIPS) >= 100


def test_no_slip_loses_more_than_its_line(book: Path) -> None:
    wanted, lost = right(book), list[str]()
    for slip in SLIPS:
        person = Person(slip["at"], slip["type"])
        found = interview(book, person)
        forget(book)
        lost += [f"never typed: {slip}"] if person.slip else []
        lost += [] if made(found) == made(wanted) else [str(slip)]
    assert lost == []


def made(answers: dict[str, list[str]]) -> object:
    data = draft("vehicle", answers)
    for plug in data["plugs"]:
        plug["pins"] = sorted(plug["pins"], key=lambda pin: pin["cavity"])
    return data


def test_a_hundred_slips_in_one_interview_lose_nothing_either(book: Path) -> None:
    wanted = right(book)
    pins = [s for s in SLIPS if s["at"] == "pin" and "" not in s["type"] and "n" not in s["type"]]
    lines = [line for slip in pins for line in slip["type"] if line not in ("back", "undo", "1")]
    person = Person("pin", [line for line in lines if line.split()[:1] != ["behind"]])
    found = interview(book, person)
    places = {tuple(line.split()[:2]) for line in wanted["pin"]}
    assert places <= {tuple(line.split()[:2]) for line in found["pin"]}
    assert {key: found[key] for key in wanted if key != "pin"} == {
        key: wanted[key] for key in wanted if key != "pin"
    }


def test_killed_at_each_prompt_it_goes_on_where_it_was(book: Path) -> None:
    whole = Person()
    wanted = interview(book, whole)
    forget(book)
    assert whole.asked > 30
    for at in range(whole.asked):
        with pytest.raises(Killed):
            interview(book, Person(killed_at=at))
        again = Person()
        assert interview(book, again) == wanted
        assert again.asked == whole.asked - at  # no question is asked a second time
        forget(book)


def test_killed_at_every_prompt_in_turn_it_comes_to_its_end(book: Path) -> None:
    wanted = right(book)
    for _ in range(200):
        try:
            assert interview(book, Person(killed_at=1)) == wanted
            return
        except Killed:
            pass
    raise AssertionError("it never came to its end")


def said_of(book: Path, *typed: str, at: str = "pin") -> list[str]:
    person = Person(at, typed)
    interview(book, person)
    forget(book)
    return person.said


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (("A 1 ground black", ""), 'A.1 stands already: "A 1 front-left + brown/white 0.75 mm2"'),
        (("A 21 acc red",), "plug A has no cavity 21: two-row-20-latch-top has 1 to 20"),
        (("B 1 acc red",), "no plug B is described; there is A"),
        (("A 4 acc mauve",), '"mauve" in "A 4 acc mauve" is no colour'),
        (("A 4 acc red", "undo"), "A.4: accessory supply, red"),
        (("A 4 acc red only sport",), "A.4: accessory supply, red, only in sport"),
        (("A 5 ? vio", ""), "A.5: function not known, violet"),
        (("A 5 nothing in it only sport",), "empty holds for every car of the record"),
        (("A 4 acc red", "undo"), 'taken back: pin "A 4 accessory red"'),
    ],
)
def test_a_line_is_checked_as_it_is_typed(book: Path, typed: tuple[str, ...], says: str) -> None:
    assert any(says in line for line in said_of(book, *typed))


@pytest.mark.parametrize("housing", ["unknown", "two-row-20-of-ours"])
def test_of_a_housing_that_nobody_drew_no_more_cavities_are_taken_than_were_counted(
    book: Path, monkeypatch: pytest.MonkeyPatch, housing: str
) -> None:
    monkeypatch.setitem(RIGHT, "plug 1.housing", housing)
    said = said_of(book, "A 21 acc red", "A.99 acc red", "A 20 acc red", "undo")
    for cavity in (21, 99):
        assert any(f"plug A has no cavity {cavity}: you counted 20" in line for line in said)
    assert any("A.20: accessory supply, red" in line for line in said)


@pytest.mark.parametrize(
    ("cavities", "latch", "usual"),
    [("20", "top", "1"), ("20", "unknown", "1"), ("20", "left", "unknown"),
     ("19", "top", "unknown"), ("19", "unknown", "unknown")],
)  # fmt: skip
def test_a_housing_that_does_not_fit_is_shown_and_not_proposed(
    book: Path, cavities: str, latch: str, usual: str
) -> None:
    log, housings, terminal = Log(), housings_of(open_book(book)), Person()
    for key, text in (("letter", "A"), ("cavities", cavities), ("latch", latch)):
        log.take(f"plug 1.{key}", text)
    (step,) = (each for each in steps("vehicle", log, {}) if each.key == "plug 1.housing")
    assert usual_housing(log, housings, step) == usual
    show_housings(terminal, log, housings, step)
    near = [line for line in terminal.said if "no housing of the book has" in line]
    assert bool(near) == (usual == "unknown") and terminal.said[-1].lstrip()[0].isdecimal()
    assert usual_housing(log, {}, step) == "unknown"


def test_a_cavity_has_a_line_for_each_trim_and_one_that_holds_for_all_is_refused(
    book: Path,
) -> None:
    typed = ("A 5 acc red only sport", "A 5 illum blue/red only base", "A 5 ground black only base")
    person = Person("pin", [*typed, "", "A 5 ground black"])
    found = interview(book, person)
    assert 'A.5 stands already: "A 5 illumination blue/red only base"' in " ".join(person.said)
    assert any("once for each trim" in line for line in person.said)
    pins = [pin for pin in draft("vehicle", found)["plugs"][0]["pins"] if pin["cavity"] == 5]
    assert [(pin["function"], pin["only_if"]["trims"]) for pin in pins] == [
        ("accessory", ["sport"]), ("illumination", ["base"]),
    ]  # fmt: skip


def test_lines_of_one_cavity_and_trim_that_differ_are_refused_in_a_file_of_answers(
    book: Path,
) -> None:
    found = right(book)
    found["pin"] += ["A 5 acc red only sport, lux", "A 5 ground black only lux"]
    with pytest.raises(AnswerError, match="given twice, and not alike"):
        draft("vehicle", found)


@pytest.mark.parametrize(
    ("typed", "face"),
    [("at the wires", "wire_side"), ("into it", "mating_side"), ("mating", "mating_side")],
)
def test_a_face_is_understood_as_people_say_it(book: Path, typed: str, face: str) -> None:
    found = interview(book, Person("plug 1.face", [typed]))
    assert draft("vehicle", found)["plugs"][0]["read_from"] == face


@pytest.mark.parametrize("typed", ["front", "from the front", "behind"])
def test_a_face_that_could_be_either_is_asked_again(book: Path, typed: str) -> None:
    assert any("is not one of the words" in line for line in said_of(book, typed, at="plug 1.face"))


def test_nobody_listened_needs_no_second_line(book: Path) -> None:
    person = Person("protected-sounds", ["unknown"])
    assert interview(book, person)["protected-sounds"] == ["unknown"]
    assert sum(line.startswith("protected-sounds") for line in person.said) == 1


TABLE = """\
> Plug A:
> pin | function | colour
> 4: ign  yel/red 0,75
> 5 - GND  blk
> 30 acc red
> cheers"""


def test_a_pasted_table_is_shown_as_understood_before_it_is_taken(book: Path) -> None:
    person = Person("pin", ["paste", *TABLE.splitlines(), ".", "run", "", "y"])
    found = interview(book, person)
    assert "A 4 run yellow/red 0.75 mm2" in found["pin"]
    assert "A 5 ground black" in found["pin"]
    assert "    A.4: run supply, yellow with red, 0.75 mm²" in person.said
    assert any("30 acc red: plug A has no cavity 30" in line for line in person.said)


def test_a_pasted_table_that_is_refused_stays_in_the_draft(book: Path) -> None:
    with pytest.raises(Killed):
        person = Person("pin", ["paste", "A 4 acc red", "A 5 gnd black", ".", "n"])
        person.killed_at = 34
        interview(book, person)
    kept = next((book / ".drafts").glob("*")).read_text("utf-8")
    assert "pasted: A 4 acc red" in kept and "pin: A 4 accessory" not in kept


OTHER_FACE = ["paste", "Plug A, mating side", "4 acc red", "."]


def test_a_table_of_the_other_face_is_turned_when_pins_stand(book: Path) -> None:
    person = Person("pin", [*OTHER_FACE, "1", "y"])
    made = draft("vehicle", interview(book, person))["plugs"][0]
    assert made["read_from"] == "wire_side"
    assert "    A.7: accessory supply, red" in person.said
    assert any('the table says "mating side", you said wire side' in each for each in person.said)


class Beginner(Person):
    """Types his slip where the first pin is asked."""

    def _is_there(self) -> bool:
        here = self._step().key == self.at and not self.talk.log.lines("pin")
        return here or not self.at


def test_the_face_of_a_table_is_that_of_a_plug_without_pins(book: Path) -> None:
    person = Beginner("pin", [*OTHER_FACE, "1", "y"])
    found = interview(book, person)
    made = draft("vehicle", found)["plugs"][0]
    assert made["read_from"] == "mating_side"
    assert "A 4 accessory red" in found["pin"]


def test_a_table_whose_face_nobody_settles_stays_in_the_draft(book: Path) -> None:
    person = Person("pin", [*OTHER_FACE, ""])
    interview(book, person)
    assert "    4 acc red: the face that it was counted on is open" in person.said


def test_columns_without_a_heading_are_confirmed(book: Path) -> None:
    table = ["paste", "red;14;acc", "black;15;gnd", "."]
    person = Person("pin", [*table, "", "y"])
    assert "A 14 accessory red" in interview(book, person)["pin"]
    asked = "  columns: wire colour · cavity · function? (Enter: yes, n: no)"
    assert asked in person.said


def test_columns_that_are_refused_are_not_taken(book: Path) -> None:
    person = Person("pin", ["paste", "red;14;acc", "black;15;gnd", ".", "n"])
    assert "A 14 accessory red" not in interview(book, person)["pin"]


READING = (
    r"\b(?:minutes|battery|asleep|run|accessory) [0-9]|[1-9][0-9.,]* ?(?:V|Ω|ohm|mA)\b(?! supply)"
)
"""A figure with the unit of a meter, or behind a word of a reading."""


def test_help_never_prints_a_reading_that_could_be_copied() -> None:
    for kind in ("vehicle", "converter", "amplifier", "cable", "interface", "loom", "housing"):
        log = Log()
        while (step := next_step(kind, log, {})) is not None:
            for line in help_lines(kind, step)[1:]:
                assert not re.search(READING, line), line
            log.take(step.key, "" if step.many else step.default or "x")
