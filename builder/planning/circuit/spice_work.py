"""What a netlist is made of: a work pack with its circuit, and what the circuit is played with."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Channel
from builder.planning.circuit.model import Terminal, Unit
from builder.planning.circuit.spice_lines import figure
from builder.planning.circuit.spice_nodes import Nodes
from builder.planning.circuit.terminal_names import SIGNS, first_of
from builder.planning.pack_details import LevelChain
from builder.planning.words import LinkClass, UnitKind
from builder.planning.work_pack import JobParts, WorkPack
from builder.units import Volts

DIP_S = 0.01
"""When the supply goes away in the run that measures a hold-up. [s]"""

INSIDE_OHM = 1e-6
"""Two terminals that are one inside a unit."""

FLOATING_OHM = 1e6
"""What ties a floating pair to its unit's ground. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class DeckWork:
    """A job, its pack, and the nodes of its circuit."""

    parts: JobParts
    pack: WorkPack
    nodes: Nodes
    defaults: HouseDefaults

    def units(self, *kinds: UnitKind) -> list[Unit]:
        """The units of some kinds."""
        return [unit for unit in self.nodes.index.circuit.units if unit.kind in kinds]

    def at(self, terminal: Terminal) -> str:
        """The node of a terminal."""
        return self.nodes.of(terminal.id)

    def level_v_rms(self, channel: Channel) -> Volts | None:
        """The loudest clean level of a pair as the plan counts it; None where it feeds nothing."""
        found = (each for each in self.pack.plan.levels if each.channel == channel)
        return next((each.source_v_rms for each in found), None)

    def chain(self, amplifier: str, channel: int) -> LevelChain | None:
        """The levels of the first speaker on an amplifier's channel."""
        wanted = (amplifier, channel)
        names = [
            gain.speaker
            for gain in self.pack.gains
            if (gain.amplifier, gain.amplifier_channel) == wanted
        ]
        return next((chain for chain in self.pack.levels if chain.speaker in names[:1]), None)

    def switched(self, where: str, volts: Volts) -> str:
        """The source of a turn-on; of the one with the hold-up also what a restart does to it."""
        held = self.pack.hold_up
        if held is None or held.where != where:
            return f"dc {figure(volts)}"
        before, after = figure(held.from_v), f"{figure(DIP_S + 1e-4)} 0"
        return f"dc {figure(volts)} pwl(0 {before} {figure(DIP_S)} {before} {after})"


def pairs_of(unit: Unit, carries: LinkClass | None = None) -> list[tuple[Terminal, Terminal]]:
    """Return the terminals of a unit that make a pair, "in 1 +" and "in 1 −", of one class."""
    named = {each.name: each for each in unit.terminals if carries in (None, each.carries)}
    pairs = {name: f"{name.removesuffix(SIGNS[0])}{SIGNS[1]}" for name in named}
    return [
        (named[name], named[mate])
        for name, mate in pairs.items()
        if name.endswith(SIGNS[0]) and mate in named
    ]


def number_of(terminal: Terminal) -> int:
    """Return the number of a terminal's channel: 3 of "in 3 left", 1 of "out 1+2 +"."""
    return first_of(terminal.name.split()[1])
