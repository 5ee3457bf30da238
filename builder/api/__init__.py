"""The book for programs: a small typed interface that stays.

    >>> from builder.api import open_book
    >>> book = open_book("pinouts")
    >>> book.find("tansy switched").answers[0].pins[0].cavity
    '7'
    >>> plan = book.plan("ostrel-tansy-2017-hatch-base", "cvn-2a")
    >>> plan.kind
    'tap_plan'
    >>> book.job_pack("tansy-subwoofer").kind
    'tap_plan'

What is promised: the names in `__all__`, their arguments, fields and errors, the units that they
name, and the words of their types. A new version may add names, fields, arguments with a default,
and words to a type; it takes none away before it has warned of that for one version
(`DeprecationWarning`), and never gives one another meaning. `data` is what the command
prints as JSON; that of a work pack is held to `schema/work-pack.schema.json`. Not promised:
sentences, the order of findings in one place, what a plan comes to when a record or a rule has
changed, and every other module of `builder`.

Nothing here writes a file, asks a question, or reads a clock. A plan from here is the plan of the
command, with everything that bars it: what is no tap plan names nothing to join, and what a person
has to mind (`cautions`, `refusals`) is not for leaving out.
"""

from builder.api.answers import (
    Answer,
    Answers,
    Finding,
    FoundPin,
    JobPack,
    Pin,
    Plan,
    Reason,
    SeverityWord,
    Vehicle,
)
from builder.api.book import Book, open_book
from builder.api.errors import (
    CannotSketchError,
    LoombookError,
    NoBookError,
    NoSuchRecordError,
    RefusedRecordError,
)
from builder.finder.entries import RowGrade
from builder.findings import Says
from builder.model.words import Channel, Function, GradeBand, RecordKind
from builder.planning.feeds.tap_plan import Treatment
from builder.planning.words import PlanKind

__all__ = [
    "Answer",
    "Answers",
    "Book",
    "CannotSketchError",
    "Channel",
    "Finding",
    "FoundPin",
    "Function",
    "GradeBand",
    "JobPack",
    "LoombookError",
    "NoBookError",
    "NoSuchRecordError",
    "Pin",
    "Plan",
    "PlanKind",
    "Reason",
    "RecordKind",
    "RefusedRecordError",
    "RowGrade",
    "Says",
    "SeverityWord",
    "Treatment",
    "Vehicle",
    "open_book",
]
