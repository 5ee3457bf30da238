"""What a rule is. Each rule file holds one `RULE`; the file's docstring is its page.

A rule never handles files, positions or pages: it yields `Fault`, and the pipeline does
the rest. A rule never repeats the schema: what the schema can say, the schema says.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import Enum
from typing import Any

from builder.findings import NOT_YET_KNOWN, Fault, Says, Severity


class Scope(Enum):
    """What a rule looks at; its `check` takes the arguments named here.

    RECORD   check(record)             one parsed record of the kinds the rule names
    PART     check(part, shelf)        a housing, loom or interface and the parts it may refer to
    VEHICLE  check(vehicle, shelf)     a vehicle and the parts it may refer to
    BOOK     check(summaries, shelf)   all vehicles, as `VehicleSummary`; yields (vehicle id, Fault)
    PLAN     check(plan, vehicle, shelf)  a finished plan, its vehicle, and the book's summaries
    NAMES    check(job, shelf, vehicle)    a job and what it names, before a pack is made; the
                                       vehicle is None when the book has none of that id
    JOB      check(pack, parts)        a `WorkPack` and the `JobParts` it was made from; paths are
                                       places in the job record
    """

    RECORD = "record"
    PART = "part"
    VEHICLE = "vehicle"
    BOOK = "book"
    PLAN = "plan"
    NAMES = "names"
    JOB = "job"


@dataclass(frozen=True, slots=True)
class Rule:
    """One entry of the catalogue.

    `hazard` marks an electrical or safety stop: a record cannot accept it. `kinds` names the
    record kinds a RECORD or PART rule is run on. `not_known` are the weights whose findings only
    say that nobody knows something yet: they keep plans back as any other of their weight does, and
    no check fails for them. `partly` are the weights of which each fault says by itself which of
    the two it is (`Fault.nobody_knows`): what does harm and what nobody looked at weigh the same.
    """

    id: str
    slug: str
    severity: Severity
    scope: Scope
    check: Callable[..., Iterable[Fault] | Iterable[tuple[str, Fault]]]
    title: str
    hazard: bool = False
    kinds: tuple[str, ...] = ("vehicle",)
    not_known: frozenset[Severity] = frozenset()
    partly: frozenset[Severity] = frozenset()

    def says(self, fault: Fault) -> Says:
        """Whether a fault of it says that a record is wrong, or only thin."""
        weight = self.severity if fault.severity is None else fault.severity
        thin = weight in self.not_known or (weight in self.partly and fault.nobody_knows)
        return NOT_YET_KNOWN if thin else "wrong"

    @property
    def page(self) -> str:
        """The docstring of the file that defines the rule: its page."""
        return sys.modules[self.check.__module__].__doc__ or ""

    def run(self, *subjects: Any) -> list[Any]:
        """All faults found in the subjects, as a list."""
        return list(self.check(*subjects))


def rule(
    id: str,
    severity: Severity,
    scope: Scope,
    check: Callable[..., Iterable[Fault] | Iterable[tuple[str, Fault]]],
    *,
    hazard: bool = False,
    kinds: tuple[str, ...] = ("vehicle",),
    not_known: Iterable[Severity] = (),
    partly: Iterable[Severity] = (),
) -> Rule:
    """Return the rule of a file: its name is the slug, its docstring's first line the title."""
    module = sys.modules[check.__module__]
    slug = check.__module__.rpartition(".")[2].replace("_", "-")
    title = (module.__doc__ or "").partition("\n")[0].rstrip(".")
    weights = (frozenset(not_known), frozenset(partly))
    return Rule(id, slug, severity, scope, check, title, hazard, kinds, *weights)
