"""The steps of a loom: what is joined at the table, and how it goes between plug and unit."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.bay.step_line import step
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Joint, Unit
from builder.planning.sheet_rows import Step
from builder.planning.views.names import joint_words
from builder.planning.views.plugs_home import home_words, plugs_home
from builder.planning.views.wiring_rows import made_by_us

RING_OUT_GATE = "every line of its ring-out has passed; until then no plug of the car is unplugged"


def table_steps(index: CircuitIndex) -> Iterator[Step]:
    """Yield what is done on a table before the car is touched, loom by loom."""
    for unit in looms_of(index):
        made = [each for each in made_in(index, unit) if each.kind != "plug_home"]
        closed = [each.what for each in index.circuit.open_ends if each.place == unit.id]
        yield step(
            "before",
            f"at the table: make {unit.id} ({unit.record}) by its bench sheet; cut its cables by "
            "the cut list and join them to it",
            lines=(
                *(joint_words(index, joint) for joint in made),
                *(f"closed off: {what}" for what in closed),
            ),
            makes=tuple(joint.id for joint in made),
        )
        yield step("before", f"ring {unit.id} out, line by line of its bench sheet", RING_OUT_GATE)


def plug_steps(index: CircuitIndex) -> Iterator[Step]:
    """Yield how each loom goes in: last of all that is joined."""
    for unit in looms_of(index):
        homes = plugs_home(made_in(index, unit))
        lines = tuple(f"{home_words(index, joints)}: plug home" for joints in homes.values())
        made = tuple(joint.id for joints in homes.values() for joint in joints)
        text = f"{unit.id} in: the car's plug into it until it clicks, then its own into the unit"
        yield step("build", text, "every line of its ring-out has passed", lines=lines, makes=made)


def looms_of(index: CircuitIndex) -> list[Unit]:
    """Return the looms of a circuit."""
    return [unit for unit in index.circuit.units if unit.kind == "loom"]


def made_in(index: CircuitIndex, unit: Unit) -> list[Joint]:
    """Return the joints that this job makes in or at a loom."""
    own = {terminal.id for terminal in unit.terminals}
    return [
        joint
        for joint in index.circuit.joints
        if made_by_us(index, joint)
        and (joint.place == unit.id or (joint.kind == "plug_home" and own & {*joint.joins}))
    ]
