"""How the terminals of a circuit are called: said once, for who joins them and who measures."""

from __future__ import annotations

from builder.model.names import FACTORY_SUB, channel_name
from builder.model.parts.amplifier_inputs import Socket
from builder.model.plugs import Plug
from builder.model.words import Channel, Unit
from builder.planning.circuit.model import EndId
from builder.planning.words import BLOCK, MAIN_FUSE

BODY_AT_STRAP = "body at the strap"
"""Where the car's own strap meets its body."""
RADIO_END, SPEAKER_END = "radio end", "speaker end"
"""The two ends of a factory speaker wire that is cut: at its plug, and what leads on."""
SIGNS = ("+", "−")
SECOND = "second battery"
SECOND_PLUS, SECOND_MINUS = f"{SECOND} {SIGNS[0]}", f"{SECOND} {SIGNS[1]}"
LINK_FUSE = "fuse of the link at the battery"
BATTERY = "battery"
BATTERY_PLUS, BATTERY_MINUS = f"{BATTERY} {SIGNS[0]}", f"{BATTERY} {SIGNS[1]}"
BLOCK_IN = f"{BLOCK} in"
DRIVER = "turn-on driver"
DRIVER_IN, DRIVER_OUT = f"{DRIVER} in", f"{DRIVER} out"

LEAD_TO_SECOND = f"lead to the {SECOND}"
LEAD_TO_MAIN_FUSE = f"lead to the {MAIN_FUSE}"


def supply_wire(device: str) -> str:
    """Return the positive wire to a small device."""
    return f"supply of {device}"


def supply_of(unit: str) -> EndId:
    """Return the positive supply terminal of a device."""
    return f"{unit} +12 V"


def ground_of(unit: str) -> EndId:
    """Return the ground terminal of a device."""
    return f"{unit} GND"


def turn_on_of(unit: str) -> EndId:
    """Return the turn-on input of an amplifier, or of what else is switched."""
    return f"{unit} turn-on"


def across_coil(load: str) -> str:
    """Return the diode across the coil of what the turn-on lead switches."""
    return f"diode across the coil of {load}"


def turn_on_input(converter: str) -> EndId:
    """Return the turn-on input of a converter."""
    return f"{converter} turn-on in"


def turn_on_output(converter: str) -> EndId:
    """Return the turn-on output of a converter."""
    return f"{converter} turn-on out"


def pair_input(converter: str, number: int, sign: str) -> EndId:
    """Return one leg of a converter's input."""
    return f"{converter} in {number} {sign}"


def line_output(converter: str, number: int) -> EndId:
    """Return the centre of a converter's line output."""
    return f"{converter} out {number}"


def shield_of(line_terminal: EndId) -> EndId:
    """Return the shield around the centre of a line output or input."""
    return f"{line_terminal} shield"


def line_input(amplifier: str, socket: Socket) -> EndId:
    """Return the centre of an amplifier's line input."""
    return f"{amplifier} {socket.words}"


def heard_by(amplifier: str, number: int) -> EndId:
    """Return where a channel hears what its amplifier brings it from other inputs."""
    return f"{amplifier} channel {number}"


def channel_of(amplifier: str, channel: str) -> str:
    """Return the name of an amplifier's channel, "1" or bridged "1+2"; with a sign, a terminal."""
    return f"{amplifier} out {channel}"


def first_of(channel: str) -> int:
    """Return the channel whose input feeds a channel: 1 of "1", 1 of bridged "1+2"."""
    return int(channel.partition("+")[0])


def factory_speaker(channel: Channel) -> str:
    """Return the car's own speaker of a channel."""
    return FACTORY_SUB if channel == "sub" else f"factory speaker {channel_name(channel)}"


def loom_terminal(loom: str, end: str, cavity: str) -> EndId:
    """Return a cavity of an end or branch of a loom.

    >>> loom_terminal("loom A", "radio end", "11")
    'loom A radio end.11'
    """
    return f"{loom} {end}.{cavity}"


def socket_terminal(unit: Unit, cavity: str) -> EndId:
    """Return what a cavity of a plug goes into: `cavity` is the car's own, "A.11".

    >>> socket_terminal("amplifier", "C.3")
    'factory amplifier C.3'
    """
    return f"{source_name(unit)} {cavity}"


def source_name(unit: Unit) -> str:
    """Return what a unit of the car is called."""
    return "factory amplifier" if unit == "amplifier" else unit.replace("_", " ")


def plug_name(plug: Plug) -> str:
    """Return what a plug of the car is called: with the unit that it goes into, "radio plug A"."""
    return f"{source_name(plug.unit)} plug {plug.id}"


def factory_input(channel: Channel) -> str:
    """Return the input of the factory amplifier that a line feed leads to."""
    return f"factory amplifier {channel_name(channel)}"


def legs_of(name: str) -> tuple[EndId, EndId]:
    """Return both terminals of a pair: of a channel, a speaker."""
    return f"{name} {SIGNS[0]}", f"{name} {SIGNS[1]}"


def coiled_speaker(coil: str) -> str:
    """Return the speaker that a coil is of, by the coil's name.

    >>> coiled_speaker("coil 1 of subwoofer")
    'subwoofer'
    """
    return coil.partition(" of ")[2]
