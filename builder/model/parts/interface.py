"""Data interfaces: units that read the car's bus and give outputs that can be switched from."""

from __future__ import annotations

from typing import Literal

from builder.declaring import figure, listed, part, record, text, word
from builder.model.forms import ID, LINE, NOTE
from builder.model.recorded import OWN_ID, Recorded

InterfaceFunction = Literal["accessory", "illumination", "reverse", "amplifier_on"]
Bus = Literal["two_wire", "one_wire"]


@record
class InterfaceOutput:
    """One output of a data interface."""

    function: InterfaceFunction = word(
        "What it does.", "accessory",
        means={"accessory": "Battery voltage while the key is in accessory or run.",
        "illumination": "Battery voltage while the lights are on.",
        "reverse": "Battery voltage in reverse gear.",
        "amplifier_on": "Battery voltage while the radio plays."},
        label="gives",
    )  # fmt: skip
    max_ma: float = figure(
        "The most it gives, in milliamperes.", "mA", 500, above=0, most=20000,
        label="up to",
    )  # fmt: skip
    delay_s: float | None = figure(
        "How long after the bus says so it comes on, in seconds, or unknown.", "s", 1.5, least=0,
        most=60, unknown=True, default=None,
        label="on after",
    )  # fmt: skip
    hold_s: float | None = figure(
        "How long it stays on after the key is off, in seconds, or unknown.", "s", 10, least=0,
        most=7200, unknown=True, default=None,
        label="held for",
    )  # fmt: skip


@record
class InterfaceNeeds:
    """What the car must have."""

    bus: Bus = word(
        "The bus that it reads.", "two_wire",
        means={"two_wire": "A bus with a high wire and a low wire.",
        "one_wire": "A bus of one wire."},
        label="Reads", ask="The bus it reads: two_wire or one_wire",
    )  # fmt: skip
    plugs: tuple[str, ...] = listed(
        "The ids of the housings of the car's plugs that its own plug goes between; nobody taps a "
        "data wire.", ["template-housing"], least=1, most=20, unique=True, form=ID,
        label="Goes between the car's plugs",
        ask="Housings of the car's plugs that it goes between, with commas",
    )  # fmt: skip


@record
class InterfaceSupply:
    """What it asks of the 12 V supply."""

    min_v: float = figure(
        "The least supply it works on, in volts.", "V", 9.0, least=4, most=20,
        label="works down to",
    )  # fmt: skip
    idle_ma: float = figure(
        "What it draws while the car sleeps, in milliamperes.", "mA", 3, least=0, most=2000,
        label="draws asleep",
    )  # fmt: skip
    awake_ma: float | None = figure(
        "What it draws itself while the bus is awake, in milliamperes, or unknown; what its "
        "outputs give comes on top.", "mA", 70, least=0, most=5000, unknown=True, default=None,
        label="draws awake",
    )  # fmt: skip
    fuse_a: float = figure(
        "The fuse of its own, in amperes.", "A", 2, above=0, most=100,
        label="fuse",
    )  # fmt: skip


@record
class Interface(Recorded):
    """A data interface: it reads the car's bus and gives outputs; joined by its own plug only."""

    id: str = text(OWN_ID, "bus-reader-example", "template-reader", form=ID)
    name: str = text(
        "What the maker calls it.", "BR-1 example", form=LINE,
        ask="Name printed on it",
    )  # fmt: skip
    maker: str = text("Who makes it.", "Example Audio", form=LINE, ask="Maker")
    outputs: tuple[InterfaceOutput, ...] = listed(
        "Its outputs: one entry for each.", [{"function": "accessory", "max_ma": 500}], least=1,
        most=16,
        label="Outputs",
        ask="Outputs, one a line: accessory MILLIAMPERES mA, after SECONDS s, held SECONDS s",
        option="output", lines=True,
    )  # fmt: skip
    sound_outputs: int = figure(
        "How many line outputs it has with the sound of the car's digital link; left out, none.",
        "outputs", 4, least=0, most=16, default=0,
        label="Line outputs with the car's digital sound", absent="none",
    )  # fmt: skip
    needs: InterfaceNeeds = part({"bus": "two_wire", "plugs": ["template-housing"]})
    supply: InterfaceSupply = part(
        {"min_v": 9.0, "idle_ma": 3, "fuse_a": 2},
        label="Supply",
        ask="Least supply V, mA asleep, fuse A: the three figures of its data sheet",
    )  # fmt: skip
    note: str | None = text(
        "Anything a person should know about it.", "asks for a restart of the radio", form=NOTE,
        default=None,
        label="Note", absent="none",
    )  # fmt: skip

    def output(self, function: InterfaceFunction) -> InterfaceOutput | None:
        """Its strongest output of a function, or None."""
        found = [each for each in self.outputs if each.function == function]
        return max(found, key=lambda each: each.max_ma, default=None)
