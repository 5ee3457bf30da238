"""`new`: a record from answers, tried in the book before it is written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from builder.book import FOLDERS, Book, home_of, shown_path
from builder.data_files import schema_ref
from builder.editing import write_record
from builder.editing.drafts import AnswerError, Answers, draft, questions_of
from builder.editing.drafts.compact import years_of
from builder.editing.drafts.housing_choice import fits, fitting_housings
from builder.editing.drafts.question import every, one, slug
from builder.findings import Finding
from builder.loading import load_file
from builder.model.housing import Housing
from builder.model.words import Edge, RecordKind
from builder.pipeline.changing.begun_visits import name_of_begun
from builder.pipeline.changing.record_files import create_new
from builder.pipeline.changing.trial_book import trial_findings
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.old_names import now_called
from builder.pipeline.checking.reserved_ids import reserved_id
from builder.pipeline.checking.shelf import housings_of
from builder.speller import nearest


@dataclass(frozen=True, slots=True)
class NewRecord:
    """A record that is not written yet: where it goes, its text, and what the check says of it."""

    kind: RecordKind
    path: Path
    text: str
    data: dict[str, Any]
    findings: tuple[Finding, ...]


def new_record(book: Book, kind: RecordKind, answers: Answers) -> NewRecord:
    """Return the record that answers make, checked among the others; nothing is written.

    Raises:
        AnswerError: an answer is missing or cannot be read.
        FileExistsError: the book has a file of that name.
    """
    data = _drafted(book, kind, _with_housings(book, answers))
    path = place_of_new(book, kind, data)
    if fault := reserved_id(kind, path.stem):
        raise AnswerError(f"{fault.message}; answer with another name")
    if now := book.renamed.get((kind, path.stem)):
        raise AnswerError(
            f"{now_called(path.stem, now)}, and an old id is never used again; answer with another "
            "name"
        )
    if path.exists():
        raise FileExistsError(f"{shown_path(path)} exists already")
    text = write_record(data, kind, schema_ref=schema_ref(path, kind, home_of(path)))
    findings = trial_findings(book, {path: text}, check_book).get(path, [])
    return NewRecord(kind, path, text, data, tuple(findings))


def _drafted(book: Book, kind: RecordKind, answers: Answers) -> dict[str, Any]:
    """The data of a new record; a visit that is only begun gets a name that nobody has."""
    data = draft(kind, answers)
    if kind != "visit" or data["places"] or one(answers, "id"):
        return data
    return draft(kind, {**answers, "id": [name_of_begun(book, data)]})


def name_taken(book: Book, kind: RecordKind, answers: Answers) -> str:
    """Why the record that answers so far would make cannot be new; "" when it can."""
    needed = [one(answers, name) for name in ("make", "model", "years", "variant")]
    if kind != "vehicle" or not all(needed) or one(answers, "id"):
        return ""
    make, model, years, variant = needed
    data = {"make": make, "id": slug(f"{make} {model} {years_of(years)[0]} {variant}")}
    path = place_of_new(book, kind, data)
    return f"{shown_path(path)} exists already" if path.exists() else ""


def write_new(record: NewRecord) -> None:
    """Write a new record; nothing is ever overwritten.

    Raises:
        FileExistsError: somebody made the file meanwhile.
        OSError: it cannot be written; nothing is left of it.
    """
    create_new(record.path, record.text)


def next_steps(record: NewRecord) -> list[str]:
    """What to do with a new record, in the order it is done."""
    failing = sum(finding.fails_check for finding in record.findings)
    steps = ["mend what the findings above say, then run: loombook check"] if failing else []
    if record.kind != "vehicle":
        return steps or ["nothing is left to mend; the next check reads it"]
    pins = [pin for plug in record.data["plugs"] for pin in plug["pins"]]
    bare = sum(not pin.get("readings") for pin in pins)
    if bare:
        steps.append(f"{bare} of {len(pins)} pins have no reading: no plan can be made of them yet")
    return [
        *steps,
        f"get the sheet of what to measure: loombook new bay-sheet {record.data['id']}",
        "fill it in the car, then: loombook evidence add SHEET",
        f"then ask what is still needed: loombook show {record.data['id']}",
    ]


def answers_from(file: Path, shown: str, kind: RecordKind) -> dict[str, list[str]]:
    """Answers by question from a YAML file whose keys are the options' names.

    Raises:
        AnswerError: it cannot be read, or has a key that is no question of the kind.
    """
    loaded = load_file(file, shown)
    if loaded.data is None:
        first = loaded.findings[0]
        raise AnswerError(f"{shown}:{first.line}:{first.column}: {first.message}")
    many = {question.name: question.many for question in questions_of(kind)}
    answers: dict[str, list[str]] = {}
    for key, value in loaded.data.items():
        name = key.replace("_", "-")
        if name not in many:
            near = nearest(name, many)
            hint = f"did you mean {near}?" if near else f"known are {', '.join(many)}"
            raise AnswerError(f'{shown}: "{key}" is no question of a new {kind}: {hint}')
        answers[name] = _texts(value, many[name])
    return answers


def _texts(value: Any, many: bool) -> list[str]:
    if not isinstance(value, list):
        return [line for line in str(value).splitlines() if line.strip()] if many else [str(value)]
    texts = [str(item) for item in value]
    return texts if many else [", ".join(texts) or "none"]


def _with_housings(book: Book, answers: Answers) -> Mapping[str, list[str]]:
    """The answers with `20` or `20:top` in a plug's line made the one housing that fits."""
    plugs = every(answers, "plug")
    if not any(_asks_for_housing(line) for line in plugs):
        return answers
    housings = housings_of(book)
    return {**answers, "plug": [_with_housing(line, housings) for line in plugs]}


def _asks_for_housing(line: str) -> bool:
    words = line.split()
    return len(words) > 1 and words[1].partition(":")[0].isdigit()


def _with_housing(line: str, housings: Mapping[str, Housing]) -> str:
    if not _asks_for_housing(line):
        return line
    plug, word, *rest = line.split()
    count, _, latch = word.partition(":")
    edge: Any = latch if latch in _EDGES else ""
    fitting = fitting_housings(housings.values(), int(count), edge)
    right = [h for h in fitting if latch == edge and fits(h, int(count), edge)]
    if len(right) != 1:
        names = ", ".join(housing.id for housing in fitting)
        raise AnswerError(f'--plug: "{word}" is not one housing of the book; name it: {names}')
    return " ".join([plug, right[0].id, *rest])


_EDGES: frozenset[Edge] = frozenset({"top", "bottom", "left", "right"})


def place_of_new(book: Book, kind: RecordKind, data: dict[str, Any]) -> Path:
    """Where a new record goes: the usual name in the usual folder of the book."""
    folder = next(name for name, of_kind in FOLDERS.items() if of_kind == kind)
    place = _root(book, kind) / folder
    if kind == "vehicle":
        place = place / (slug(data["make"]) or "other")
    if kind == "visit":
        place = place / data["vehicle"]
    return place / f"{data['id']}.yaml"


def _root(book: Book, kind: RecordKind) -> Path:
    """Where a book's own records stand, never in a book that it only shares.

    A job tells of a customer, so it goes where it is not published, when there is such a folder.
    """
    own = book.own_roots
    private = [root for root in own if root.visibility == "private" and kind == "job"]
    return (private or own)[0].folder
