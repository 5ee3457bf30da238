"""What a car has beside its plugs: radio, amplifier, supply, and what can hurt a person."""

from __future__ import annotations

from builder.declaring import figure, listed, part, record, text, when, word
from builder.model.access import Removal
from builder.model.car_forms import AMPLIFIER_FEED, RADIO_OUTPUTS
from builder.model.forms import LINE, SENTENCE, TRI
from builder.model.words import AmplifierFeed, ChargingBy, RadioOutputs, Tri


@record
class Radio:
    """The factory radio as a source of sound."""

    outputs: RadioOutputs = word(
        "How it drives its speakers.", "bridged", form=RADIO_OUTPUTS,
        label="Radio outputs",
        ask="How the radio drives its speakers", answer="unknown",
        settles="both legs of a pair against the body, radio on, volume zero",
        column=("outputs", "outputs"),
    )  # fmt: skip
    label_w: float | None = figure(
        "The power printed on it, in watts a channel, or unknown.", "W", None, "unknown", above=0,
        most=2000, unknown=True, default=None,
        label="Printed power of a channel, not measured",
    )  # fmt: skip
    open_load_check: Tri = word(
        "Whether it mutes or faults with no speaker connected.", "unknown", form=TRI,
        label="Mutes or faults with no speaker",
        ask="Radio faults without a speaker", answer="unknown",
        settles="ten minutes of music with the pair's plug off",
        column=("open-load check", "open load check"),
    )  # fmt: skip
    data_wake: Tri = word(
        "Whether it is woken by a data message, with no switched wire.", "no", form=TRI,
        label="Woken by a data message",
        ask="Radio woken by data", answer="unknown",
        column=("woken by data", "data wake"),
    )  # fmt: skip
    removal: Removal | None = part(
        {"steps": ["four screws"]}, default=None,
        means={"unknown": "Nobody took it out, or nobody wrote down how; so does leaving it out."},
        settles="the vehicle maker's instructions for taking it out",
    )  # fmt: skip


@record
class FactoryAmplifier:
    """The amplifier that the factory fitted, if any.

    `rail_v` is None where the supply is not raised, or nobody knows.
    """

    feed: AmplifierFeed = word(
        "What it is fed with; none when there is no amplifier.", "none", form=AMPLIFIER_FEED,
        label="Factory amplifier",
        ask="What a factory amplifier is fed with, none without one", answer="unknown",
        option="factory-amplifier",
        settles="a look for the amplifier, along the wires of the speakers",
        column=("feed", "factory amplifier"),
    )  # fmt: skip
    location: str | None = text(
        "Where it is; unknown if you did not find it.", "under the left front seat", form=LINE,
        default=None,
        label="Factory amplifier is", absent="",
        ask="Where the factory amplifier is", answer="unknown", option="amplifier-location",
        column=("location", "amplifier location"),
    )  # fmt: skip
    rail_v: float | None = figure(
        "The supply of its output stages in volts, where it raises it above the battery's, or "
        "unknown; its speaker legs rest at half of it.", "V", None, above=16, most=60, unknown=True,
        default=None,
        label="Raised supply of its outputs", absent="",
    )  # fmt: skip

    RULES = (
        when(
            "A factory amplifier has a place; write unknown if you did not find it.",
            "feed",
            "analogue_variable",
            "analogue_fixed",
            "digital",
        ).needs("location"),
        when(
            "Where there is no factory amplifier, it has no place and no supply.", "feed", "none"
        ).bars("location", "rail_v"),
    )


@record
class Features:
    """Things in the car that change what a plan may do."""

    start_stop: Tri = word(
        "Whether the engine stops by itself at a halt.", "no", form=TRI,
        label="Start-stop",
        ask="Engine stops at a halt", answer="unknown",
        settles="a drive with a halt, or the owner's handbook",
        column=("start-stop",),
    )  # fmt: skip
    hybrid: Tri = word(
        "Whether it has a high-voltage battery.", "no", form=TRI,
        label="Hybrid or electric",
        ask="Has it a high-voltage battery", answer="unknown",
        settles="the car's papers, or the vehicle maker's rescue sheet",
    )  # fmt: skip
    noise_cancellation: Tri = word(
        "Whether microphones cancel engine noise through the speakers.", "no", form=TRI,
        label="Noise cancellation",
        ask="Noise cancelled through the speakers", answer="unknown",
        settles="microphones in the headlining, or the owner's handbook",
    )  # fmt: skip
    engine_sound: Tri = word(
        "Whether the speakers play an artificial engine sound.", "no", form=TRI,
        label="Engine sound from speakers",
        ask="Engine sound through the speakers", answer="unknown",
        settles="the owner's handbook, or ears on a drive with the radio off",
    )  # fmt: skip
    emergency_call: Tri = word(
        "Whether the car calls for help by itself and speaks through its speakers.", "unknown",
        form=TRI,
        label="Emergency call",
        ask="Car calls for help by itself", answer="unknown",
        settles="a button in the roof, or the owner's handbook",
    )  # fmt: skip


@record
class Battery:
    """The 12 V battery."""

    location: str = text(
        "Where it is; unknown if you did not look.", "engine bay", form=LINE,
        ask="Where the battery is", answer="unknown", option="battery-location",
    )  # fmt: skip
    capacity_ah: float | None = figure(
        "Its capacity in ampere-hours, or unknown.", "Ah", None, above=0, most=1000, unknown=True,
        default=None,
        column=("capacity", "battery ah"),
    )  # fmt: skip
    sensor_on_negative: Tri = word(
        "Whether a current sensor sits on the negative post.", "no", form=TRI,
        ask="Sensor on the battery's negative", answer="unknown", option="battery-sensor",
        settles="a look at the battery's negative post",
        label="sensor on its negative",
    )  # fmt: skip


@record
class Charging:
    """What charges the battery."""

    by: ChargingBy = word(
        "The charger.", "alternator", means={"alternator": "An alternator on the engine.",
        "dcdc": "A converter from the high-voltage battery.", "unknown": "Nobody has looked, or "
        "nobody could tell."},
    )  # fmt: skip
    rated_a: float | None = figure(
        "Its rated current in amperes, or unknown.", "A", None, above=0, most=1000, unknown=True,
        default=None,
        column=("rated", "alternator a"),
    )  # fmt: skip
    idle_a: float | None = figure(
        "What it gives at hot idle, measured on this car, in amperes, or unknown.", "A", None,
        above=0, most=1000, unknown=True, default=None,
        label="at hot idle",
        column=("at idle",),
    )  # fmt: skip


@record
class Power:
    """What the car can give."""

    battery: Battery = part(
        {"location": "engine bay", "capacity_ah": None, "sensor_on_negative": "no"},
        label="Battery",
    )  # fmt: skip
    charging: Charging | None = part(
        {"by": "alternator", "rated_a": None}, default=None,
        label="Charging",
    )  # fmt: skip
    base_load_a: float | None = figure(
        "What the car itself draws while running, lights and fan on, in amperes, or unknown.", "A",
        None, least=0, most=500, unknown=True, default=None,
        label="Base load, running",
    )  # fmt: skip
    base_load_key_off_a: float | None = figure(
        "What the car draws with the radio on and the key off, in amperes, or unknown.", "A", None,
        least=0, most=100, unknown=True, default=None,
        label="Base load, key off, radio on",
    )  # fmt: skip
    supply_lead_m: float | None = figure(
        "The way from the battery post to the usual amplifier place along the real route, in "
        "metres, or unknown.", "m", None, least=0, most=30, unknown=True, default=None,
        label="Supply lead to the usual place",
    )  # fmt: skip
    ground_lead_m: float | None = figure(
        "The length of the ground lead at the amplifier, in metres, or unknown.", "m", None,
        least=0,
        most=30, unknown=True, default=None,
        label="Ground lead",
    )  # fmt: skip

    @property
    def charging_by(self) -> ChargingBy | None:
        """What charges the battery, None when the record does not say."""
        return self.charging.by if self.charging else None

    @property
    def charging_a(self) -> float | None:
        """What the charger is rated for [A], None when not known."""
        return self.charging.rated_a if self.charging else None

    @property
    def charging_idle_a(self) -> float | None:
        """What the charger gives at hot idle [A], None when nobody measured it."""
        return self.charging.idle_a if self.charging else None


@record
class Safety:
    """What can hurt a person."""

    restraint_zones: tuple[str, ...] = listed(
        "Places with restraint parts or their wiring; [] when you checked and there are none, "
        "[unknown] when nobody looked, or unknown beside those that are known.",
        ["under the left front seat"], most=30, unique=True, form=LINE,
        ask="Zones with restraint parts, with commas; none if you looked and there are none, "
        "unknown if nobody did", answer="unknown",
        column=("restraint zones", "airbag zones"),
        settles="the vehicle maker's instructions for restraints, or who is trained on them",
    )  # fmt: skip
    high_voltage_zones: tuple[str, ...] = listed(
        "Places with orange high-voltage cable; [] when you checked and there are none, [unknown] "
        "when nobody looked, or unknown beside those that are known.", [],
        ["floor tunnel"], most=30, unique=True, form=LINE,
        ask="Zones with high voltage, with commas; none if you looked and there are none, "
        "unknown if nobody did", answer="unknown",
        column=("high-voltage zones",),
        settles="the vehicle maker's rescue sheet, or a person licensed for high voltage",
    )  # fmt: skip
    restraint_wait_min: float | None = figure(
        "The vehicle maker's wait after battery off before restraint parts may be touched, in "
        "minutes, or unknown; never a guess.", "min", "unknown", None, least=0, most=240,
        unknown=True,
        ask="The maker's wait after battery off, in minutes", answer="unknown",
        option="restraint-wait",
        settles="the vehicle maker's instructions for the restraint system",
    )  # fmt: skip
    cautions: tuple[str, ...] = listed(
        "Anything else that can hurt a person or the car.", ["the battery vents into the boot"],
        most=30, form=SENTENCE, default=(),
    )  # fmt: skip
