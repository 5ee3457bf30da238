"""The way back and the customer's sheet of a job, told from what was joined."""

from __future__ import annotations

from builder.model.job import AsBuilt, JoinedPin
from builder.planning.bay.hand_over import CALL_THE_SHOP, loom_line
from builder.planning.car.kept_sounds import SEE_TO_CANCELLATION
from builder.planning.circuit.index import CircuitIndex
from builder.planning.course.back_lines import back_lines
from builder.planning.course.back_work import BackWork
from builder.planning.course.joined import as_joined
from builder.planning.course.way_back import back_course
from builder.planning.harness.at_plug import looms_of
from builder.planning.views.fuse_parts import fuse_lines
from builder.planning.work_pack import JobParts, WorkPack

_NO_STATE = "Where it fits in, with the battery negative off: {}."
"""Of what no state of the car allows, so that it is not forgotten."""
_MAIN_FUSE = "Main fuse:"
"""How the customer's line of the main fuse begins: it is told as every other."""


def work_back_from(pack: WorkPack, parts: JobParts, as_built: AsBuilt) -> BackWork:
    """Return what the way back is planned from.

    `pack` is the one that the job was begun with; of one without a circuit the car's record and the
    as-built part are all that there is.
    """
    microphones = any(each.decision == SEE_TO_CANCELLATION for each in pack.because)
    joined = as_joined(pack.circuit, as_built, parts)
    return BackWork(parts, pack.plan.turn_on, microphones, parts.shelf.defaults, joined)


def way_back_from(pack: WorkPack, parts: JobParts, as_built: AsBuilt) -> tuple[str, ...]:
    """Return what is undone, in the order with the fewest changes of the car."""
    course = back_course(work_back_from(pack, parts, as_built))
    left = (_NO_STATE.format(act.said.text) for act in course.missing)
    return (*back_lines(course), *left)


def customer_lines_from(pack: WorkPack, parts: JobParts, as_built: AsBuilt) -> tuple[str, ...]:
    """Return what the customer is told: of the planned sheet what does not hang on a joint, and
    each pin, loom and fuse as it was written down."""
    gone = {*_planned_fuses(pack), *(loom_line(use) for use in looms_of(parts).values())}
    gone.add(CALL_THE_SHOP)
    return (
        *(x for x in pack.customer if x not in gone and not x.startswith(_MAIN_FUSE)),
        *(f"Joined to {_pin_words(pin)}." for pin in as_built.pins),
        *(f"At plug {each.plug} sits the loom {each.record}." for each in as_built.looms),
        *(f"Fuse: {each.name}, {each.rating}, {each.place}." for each in as_built.fuses),
        CALL_THE_SHOP,
    )


def _planned_fuses(pack: WorkPack) -> tuple[str, ...]:
    return fuse_lines(CircuitIndex(pack.circuit)) if pack.circuit else ()


def _pin_words(pin: JoinedPin) -> str:
    return f"{pin.at}{f' {pin.wire}' if pin.wire else ''} ({pin.purpose})"
