"""What a program gets: frozen values, each with what is made of it in their own words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from builder.finder.entries import RowGrade
from builder.findings import NOT_YET_KNOWN, Says
from builder.model.words import Channel, Function, GradeBand
from builder.planning.words import PlanKind

SeverityWord = Literal["stop", "fix", "warn", "note"]
_GRAVE: tuple[SeverityWord, ...] = ("stop", "fix")


@dataclass(frozen=True, slots=True)
class Finding:
    """What a check says of one place.

    `line` and `column` count from 1. `rule` is an id such as PIN101, `name` what it is called.
    `help` says what to type, "" where that is the same as the message. `accepted` is the reason for
    which the record lets it be, None where it does not. `says` is whether the record is wrong, or
    only that nobody knows something yet.
    """

    file: str
    line: int
    column: int
    severity: SeverityWord
    rule: str
    name: str
    message: str
    help: str
    accepted: str | None
    says: Says

    @property
    def bars(self) -> bool:
        """Whether it keeps plans from what it is of: a stop or a fix that is not accepted."""
        return self.accepted is None and self.severity in _GRAVE

    @property
    def fails(self) -> bool:
        """Whether the check fails for it: it bars, and the record is wrong."""
        return self.bars and self.says != NOT_YET_KNOWN


@dataclass(frozen=True, slots=True)
class Pin:
    """A pin of a vehicle, and how sure it is.

    `wire` are its colours, base first ("white/black"), "" where none is recorded. `score` goes from
    0 to 1; `why` says what makes it that, `raise_by` which reading would raise it ("" for none).
    """

    plug: str
    cavity: str
    function: Function
    wire: str
    grade: GradeBand
    score: float
    why: str
    raise_by: str


@dataclass(frozen=True, slots=True)
class Vehicle:
    """A vehicle record.

    The years are model years, first and last. `cautions` are read before the pins; `record` is
    as it was typed.
    """

    id: str
    make: str
    model: str
    variant: str
    year_from: int
    year_to: int
    cautions: tuple[str, ...]
    pins: tuple[Pin, ...]
    findings: tuple[Finding, ...]
    private: bool
    record: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class FoundPin:
    """A pin, or both legs of a pair, that answers a question.

    `cavity` is "7", of a pair "3 + / 4 −". `channel` is "" for what
    belongs to none. `grade` is that of the worse leg; a place in a fuse panel is "measured" or
    "unproved". `warning` is to be read with it, "" for none.
    """

    function: Function
    channel: Channel | Literal[""]
    plug: str
    cavity: str
    wire: str
    grade: RowGrade
    warning: str


@dataclass(frozen=True, slots=True)
class Answer:
    """A vehicle that answers, what of it does, and what has to be said with that."""

    vehicle: str
    title: str
    pins: tuple[FoundPin, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answers:
    """What a question is answered, best first: of several vehicles it has to be asked which.

    `read_as` says what was taken for something else than was typed; `missed` why nothing answers,
    "" when something does.
    """

    question: str
    answers: tuple[Answer, ...]
    read_as: tuple[str, ...]
    missed: str


@dataclass(frozen=True, slots=True)
class Reason:
    """A decision, why, and on whose word: a record, a published source, or common practice."""

    decision: str
    because: str
    source: str


@dataclass(frozen=True, slots=True)
class Plan:
    """What a vehicle and a converter come to.

    `refusals` say why it is no tap plan, and are empty for one. `cautions` are read before any
    work. `private` is whether it is made
    with a record that only this shop may see. `data` is all of it, as `plan --format json`.
    """

    kind: PlanKind
    vehicle: str
    converter: str
    cautions: tuple[str, ...]
    refusals: tuple[Reason, ...]
    findings: tuple[Finding, ...]
    private: bool
    data: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class JobPack:
    """The work pack of a job, written or sketched.

    `assumed` is what nobody gave and a sketch took, empty for a written job. `cautions` are read
    before any work. `data` is all of it, as `schema/work-pack.schema.json` describes it.
    """

    kind: PlanKind
    job: str
    cautions: tuple[str, ...]
    refusals: tuple[Reason, ...]
    assumed: tuple[Reason, ...]
    findings: tuple[Finding, ...]
    private: bool
    data: Mapping[str, Any]
