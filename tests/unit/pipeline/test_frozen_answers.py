"""What the shipped book answers, but for its sentences, is what it was when this was last written.

A change of declarations, schemas or readers must not change a plan unseen: each line of
`frozen_answers.yaml` is a sum over everything that a pack, or the plans and grades of a vehicle,
says in figures, words and names. Texts of more than one word are left out, so that a sentence may
be put better. Who means to change a plan writes the table anew with LOOMBOOK_FREEZE=1 and says in
the commit what changed.
"""

from __future__ import annotations

import hashlib
import json
import os
from pathlib import Path
from typing import Any

import yaml
from shipped_book import PINOUTS

from builder.book import RecordFile, open_book
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import grades_data
from builder.pipeline.answers.packs import made_packs
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.deciding import plans_of
from builder.pipeline.checking.proofs import known_grades
from builder.pipeline.checking.records import as_counted, read_record
from builder.planning.plan_json import plan_as_json
from builder.proof.pin_proof import prove

TABLE = Path(__file__).with_name("frozen_answers.yaml")


def without_sentences(value: Any) -> Any:
    """The same without any text of several words; what is a name, a word or a figure stays.

    How far a job is, its `standing`, is no answer of the planner.
    """
    if isinstance(value, dict):
        kept = [key for key in value if key not in ("findings", "standing")]
        return {key: without_sentences(value[key]) for key in kept}
    if isinstance(value, list | tuple):
        return [without_sentences(inner) for inner in value]
    return "" if isinstance(value, str) and " " in value else value


def short_sum(value: Any) -> str:
    text = json.dumps(without_sentences(value), sort_keys=True, ensure_ascii=False, default=str)
    return hashlib.sha256(text.encode()).hexdigest()[:8]


def answers(checked: CheckedBook) -> dict[str, dict[str, str]]:
    jobs = {made.pack.job: short_sum(made.as_data()) for made in made_packs(checked)}
    vehicles = {
        file.path.stem: short_sum(answers_on(checked, file))
        for file in checked.book.files()
        if file.kind == "vehicle" and not file.is_template
    }
    return {"jobs": jobs, "vehicles": vehicles}


def answers_on(checked: CheckedBook, file: RecordFile) -> Any:
    shelf = checked.shelf
    read = as_counted(read_record(file), shelf)
    assert isinstance(read.record, Vehicle)
    proofs = prove(read.record, shelf.defaults, shelf.housings)
    grades = known_grades(proofs, shelf.defaults)
    decided = plans_of(read, read.record, shelf, checked.gate(), grades)
    return [plan_as_json(one.plan) for one in decided], grades_data(read.record, proofs)


def test_the_shipped_book_answers_what_it_answered() -> None:
    said = answers(check_book(open_book(PINOUTS)))
    if os.environ.get("LOOMBOOK_FREEZE"):
        TABLE.write_text(yaml.safe_dump(said, sort_keys=True), "utf-8")
    assert said == yaml.safe_load(TABLE.read_text("utf-8"))


def test_a_sum_sees_figures_words_and_names_and_no_sentence() -> None:
    plan = {"kind": "tap_plan", "gain": 0.5, "because": ["It is loud."], "feeds": ["A", "B"]}
    assert short_sum(plan) == short_sum(plan | {"because": ["It is too loud."]})
    for change in ({"kind": "no_plan"}, {"gain": 0.6}, {"feeds": ["B", "A"]}, {"because": []}):
        assert short_sum(plan) != short_sum(plan | change)
