"""The interface for programs: what is public, what it answers, and that its examples run."""

from __future__ import annotations

import dataclasses
import doctest
import inspect
import json
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import get_args, get_origin

import pytest
from shipped_book import PINOUTS, ROOT, loombook

from builder import api
from builder.api import book as book_module

TANSY = "ostrel-tansy-2017-hatch-base"
SURFACE = Path(__file__).with_name("api_surface.txt")
PAGE = ROOT / "site_templates" / "handbook" / "programs.md"


@pytest.fixture(scope="module")
def book() -> api.Book:
    return api.open_book(PINOUTS)


def surface() -> Iterator[str]:
    """A line for each name: a function's arguments, a value's fields, an error's parent."""
    for name in sorted(api.__all__):
        made = getattr(api, name)
        if get_origin(made) is not None:
            yield f"{name}: one of {', '.join(sorted(words(made)))}"
        elif not inspect.isclass(made):
            yield f"{name}{inspect.signature(made)}"
        elif dataclasses.is_dataclass(made):
            yield f"{name}: a value"
            yield from (f"    {field.name}: {field.type}" for field in dataclasses.fields(made))
            yield from _members(made)
        else:
            yield f"{name}({', '.join(base.__name__ for base in made.__bases__)})"
            yield from _members(made)


def words(made: object) -> Iterator[str]:
    """The words of a type that is a list of words, or of several such."""
    for each in get_args(made):
        yield from [repr(each)] if isinstance(each, str) else words(each)


def _members(made: type) -> Iterator[str]:
    for name, member in vars(made).items():
        if name.startswith("_"):
            continue
        if isinstance(member, property) and member.fget is not None:
            yield f"    {name} -> {inspect.signature(member.fget).return_annotation}"
        elif inspect.isfunction(member):
            yield f"    {name}{inspect.signature(member)}"


def test_what_is_public_is_as_it_was_promised() -> None:
    """A line that goes, or says something else, breaks somebody's program: see the promise."""
    assert SURFACE.read_text("utf-8").splitlines() == list(surface())


def test_everything_public_is_described() -> None:
    for name in api.__all__:
        made = getattr(api, name)
        assert inspect.getdoc(made) or get_origin(made), name
        for member in vars(made).values() if inspect.isclass(made) else ():
            if inspect.isfunction(member) and not member.__name__.startswith("_"):
                assert inspect.getdoc(member), f"{name}.{member.__name__}"


@pytest.mark.parametrize("module", [api, book_module], ids=lambda module: module.__name__)
def test_the_examples_of_the_docstrings_run(
    module: ModuleType, book: api.Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    ran = doctest.testmod(module, extraglobs={"book": book, "open_book": api.open_book})
    assert ran.failed == 0 and ran.attempted > 4


def test_the_examples_of_the_handbook_run(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    # The fences are taken out: doctest reads what follows an example as what it prints.
    text = re.sub(r"^```.*\n", "\n", PAGE.read_text("utf-8"), flags=re.M)
    runner = doctest.DocTestRunner()
    runner.run(doctest.DocTestParser().get_doctest(text, {}, PAGE.name, str(PAGE), 0))
    assert (runner.failures, runner.tries > 10) == (0, True)


def test_the_readme_s_example_runs(monkeypatch: pytest.MonkeyPatch, capsys) -> None:
    monkeypatch.chdir(ROOT)
    (example,) = re.findall(
        r"^```python\n(.*?)^```",
        (ROOT / "site_templates/handbook/take-along.md").read_text(),
        re.M | re.S,
    )
    exec(example, {})
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "tap_plan" and len(said) > 3


def as_printed(*words: str) -> dict:
    done = loombook(*words, "--book", PINOUTS, "--format", "json")
    return json.loads(done.stdout)


def as_json(data: object) -> object:
    return json.loads(json.dumps(data))


def test_a_plan_is_that_of_the_command(book: api.Book) -> None:
    plan = book.plan(TANSY, "cvn-2a", treatment="addon")
    words = ("plan", TANSY, "--converter", "cvn-2a", "--treatment", "addon")
    assert as_json(plan.data) == as_printed(*words)
    assert (plan.kind, plan.vehicle, plan.converter) == ("tap_plan", TANSY, "cvn-2a")
    assert plan.cautions == book.vehicle(TANSY).cautions and plan.private is False


def test_a_pack_and_a_sketch_are_those_of_the_command(book: api.Book) -> None:
    assert as_json(book.job_pack("tansy-subwoofer").data) == as_printed("plan", "tansy-subwoofer")
    sketch = book.sketch(TANSY, "cvn-2a", ["amn-600"])
    words = ("plan", TANSY, "--converter", "cvn-2a", "--amplifier", "amn-600")
    assert as_json(sketch.data) == as_printed(*words)
    assert [one.decision for one in sketch.assumed] == [
        one["decision"] for one in sketch.data["assumed"]
    ]


def test_what_is_no_tap_plan_says_why_and_joins_nothing(book: api.Book) -> None:
    plans = (book.plan(car, "cvn-2a") for car in book.ids("vehicle"))
    refused = [plan for plan in plans if plan.kind != "tap_plan"]
    assert refused
    for plan in refused:
        assert plan.refusals and plan.cautions, plan.vehicle
        assert plan.data["insulate"] == [], plan.vehicle


def test_a_vehicle_has_the_grades_of_the_command(book: api.Book) -> None:
    car, told = book.vehicle(TANSY), as_printed("show", TANSY)
    assert as_json(car.record) == told["record"]
    assert [(pin.plug, pin.cavity, pin.grade, round(pin.score, 4)) for pin in car.pins] == [
        (one["plug"], one["cavity"], one["grade"], one["score"])
        for one in told["computed"]["grades"]
    ]


def test_a_question_has_the_answers_of_the_command(book: api.Book) -> None:
    found, told = book.find("tansi switched"), as_printed("find", "tansi switched")
    assert [one.vehicle for one in found.answers] == [one["vehicle"] for one in told["answers"]]
    assert found.answers[0].pins[0].cavity == told["answers"][0]["rows"][0]["cavity"]
    assert found.read_as and not found.missed
    nothing = book.find("zibbelin")
    assert nothing.answers == () and nothing.missed


def test_findings_are_those_of_the_check(small_book: Path) -> None:
    path = small_book / "vehicles" / "ostrel" / f"{TANSY}.yaml"
    text = path.read_text("utf-8")
    assert "base: pink" in text
    path.write_text(text.replace("base: pink", "base: Pink", 1), "utf-8")
    found = api.open_book(small_book).findings()
    told = json.loads(loombook("check", small_book, "--format", "json").stdout)
    assert [(f.file, f.line, f.column, f.rule, f.severity) for f in found] == [
        (f["file"], f["line"], f["column"], f["rule"], f["severity"]) for f in told["findings"]
    ]
    assert sum(finding.fails for finding in found) == told["failing"] == 1


def test_what_is_not_yet_known_bars_plans_and_fails_no_check(book: api.Book) -> None:
    thin = [finding for finding in book.findings() if finding.bars]
    assert thin and {finding.says for finding in thin} == {"not yet known"}


def test_what_cannot_be_answered_is_an_error_with_a_sentence(
    book: api.Book, small_book: Path
) -> None:
    with pytest.raises(api.NoBookError, match="there is no folder"):
        api.open_book(small_book / "nowhere")
    with pytest.raises(ValueError):
        api.open_book(PINOUTS, as_of="June")
    with pytest.raises(api.NoSuchRecordError, match="did you mean"):
        book.plan(TANSY, "cvn-2")
    with pytest.raises(api.NoSuchRecordError, match="no job is called"):
        book.job_pack("zibbelin")
    with pytest.raises(api.CannotSketchError):
        book.sketch(TANSY, "cvn-2a", [])
    (small_book / "vehicles" / "broken.yaml").write_text("id: [", "utf-8")
    with pytest.raises(api.RefusedRecordError) as refused:
        api.open_book(small_book).vehicle("broken")
    assert refused.value.findings[0].fails and "broken.yaml:" in str(refused.value)
    assert issubclass(api.RefusedRecordError, api.LoombookError)


def test_a_book_is_checked_once(book: api.Book, monkeypatch: pytest.MonkeyPatch) -> None:
    book.vehicle(TANSY)

    def again(*given: object, **said: object) -> None:
        raise AssertionError("checked again")

    monkeypatch.setattr(book_module, "check_book", again)
    assert book.vehicle(TANSY).id == book.plan(TANSY, "cvn-2a").vehicle


@pytest.mark.slow
def test_a_program_of_somebody_else_is_type_checked_against_it(tmp_path: Path) -> None:
    program = tmp_path / "program.py"
    program.write_text(
        "from builder.api import Book, open_book\n"
        "def kind(book: Book) -> str:\n"
        "    return book.plan('a', 'b').kind\n"
        "book = open_book('pinouts', publik=True)\n"
        "book.plan('a', 'b', treatment='both')\n"
        "width: int = book.vehicle('a').pins[0].score\n",
        "utf-8",
    )
    mypy = [sys.executable, "-m", "mypy", "--strict", "--follow-imports=silent", "--config-file="]
    done = subprocess.run(
        [*mypy, "--cache-dir", str(ROOT / ".mypy_cache" / "programs"), str(program)],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    lines = re.findall(r"program\.py:(\d+): error: .*\[([\w-]+)\]", done.stdout)
    assert lines == [("4", "call-arg"), ("5", "arg-type"), ("6", "assignment")], done.stdout


def test_the_types_travel_with_the_package() -> None:
    assert (ROOT / "builder" / "py.typed").read_text() == ""
