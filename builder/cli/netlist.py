"""`loombook plan JOB --format spice`: a job's circuit as a netlist, or why there is none."""

from __future__ import annotations

import click

from builder.pipeline.answers.packs import MadePack
from builder.planning.circuit.spice import spice_deck
from builder.planning.words import PlanKind

PLAN_IS: dict[PlanKind, str] = {
    "tap_plan": "a tap plan",
    "probe_plan": "a probe plan",
    "no_plan": "no plan",
}
_MISSING = (
    "only a tap plan has a circuit, which is what a netlist is made of. "
    "The same command without --format spice says what is missing"
)


def print_netlist(made: MadePack) -> None:
    """Print the netlist of a tap plan.

    Raises:
        ClickException: the job comes to anything else.
    """
    pack = made.pack
    if pack.kind != "tap_plan":
        raise no_circuit(pack.job, pack.kind)
    click.echo(spice_deck(made.parts, pack, made.parts.shelf.defaults), nl=False)


def no_circuit(name: str, kind: PlanKind) -> click.ClickException:
    """Return the sentence on a plan that nothing is joined by."""
    return click.ClickException(f"{name} comes to {PLAN_IS[kind]}, and {_MISSING}")


def not_a_job() -> click.ClickException:
    """Return the sentence on a vehicle and a converter: what hangs on them nobody has said."""
    return click.ClickException(
        "a netlist holds a whole job: name one, or add --amplifier for a sketched one"
    )
