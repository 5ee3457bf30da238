"""Who measured, when, on which car, with what."""

from __future__ import annotations

from builder.declaring import figure, part, record, text, word
from builder.findings import DataPath
from builder.model.forms import CODE, DATE, ID, MONTH, TRI, YEAR
from builder.model.plug_forms import DRIVER_SEAT, FACE
from builder.model.words import DriverSeat, Face, Instrument, Reference, Tri


def tagged(tag: str) -> str:
    """Return a car's tag as it is printed, so that nobody takes it for a name of the model.

    >>> tagged("k7m2")
    "shop's tag k7m2"
    """
    return f"shop's tag {tag}"


@record(shared="measured_car")
class MeasuredCar:
    """The car that was measured; its tag is a word that you choose, never the chassis number."""

    tag: str = text(
        "A random word that you choose for this car; never the chassis number or anything made "
        "from it.", "k7m2", form=CODE,
        column=("tag", "tag"),
    )  # fmt: skip
    year: int | None = figure("Its model year.", "", 2018, form=YEAR, default=None)
    built: str | None = text(
        "Its month of build, as YYYY-MM.", "2018-04", form=MONTH, default=None,
        column=("built", "built"),
    )  # fmt: skip
    trim: str | None = text("Its trim.", "base", form=CODE, default=None)
    drive_side: DriverSeat | None = word(
        "The side its driver sits on.", "left", form=DRIVER_SEAT, default=None,
    )  # fmt: skip

    @property
    def tagged(self) -> str:
        """The tag as it is printed."""
        return tagged(self.tag)


@record(shared="meter")
class Meter:
    """What is known of the meter."""

    impedance_mohm: float | None = figure(
        "Its input resistance in megohms, or unknown.", "MΩ", None, above=0, most=10000,
        unknown=True,
        default=None,
        column=("meter", "impedance mohm"),
    )  # fmt: skip
    true_rms: Tri = word(
        "Whether it shows true RMS.", "yes", form=TRI, default="unknown",
        column=("true RMS",),
    )  # fmt: skip


@record
class Session:
    """One visit with a meter."""

    id: str = text("The name that readings refer to.", "s1", form=ID)
    by: str = text(
        "Who measured: your shop or handle.", "alder-pit-audio", form=ID,
        column=("who", "by", "measured by", "shop"),
    )  # fmt: skip
    date: str = text(
        "The day, as YYYY-MM-DD.", "2024-05-13", form=DATE,
        column=("date", "day", "measured on"),
    )  # fmt: skip
    car: MeasuredCar = part(
        {"tag": "k7m2", "year": 2018, "built": "2018-04", "trim": "base", "drive_side": "left"},
        description="The car that was measured; its tag is a word that you choose, never the "
        "chassis number.",
    )  # fmt: skip
    method: Instrument = word(
        "What was measured with.", "meter", means={"meter": "A multimeter.",
        "scope": "An oscilloscope."},
        column=("measured with", "method", "meter", "meter or scope"),
    )  # fmt: skip
    read_from: Face = word(
        "The face that the cavities were counted on.", "wire_side", form=FACE,
        column=("read from", "face", "side", "counted on"),
    )  # fmt: skip
    against: Reference = word(
        "Where the other probe was, unless a reading says otherwise.", "battery_negative",
        means={"battery_negative": "On the battery's negative post.", "body": "On bare metal of "
        "the body."},
        column=("against", "black probe on", "reference"),
    )  # fmt: skip
    meter: Meter | None = part(
        {"impedance_mohm": None, "true_rms": "yes"}, description="What is known of the meter.",
        default=None,
        column=("",),
    )  # fmt: skip
    path: DataPath = ()

    @property
    def car_tag(self) -> str:
        """The random word that stands for the car."""
        return self.car.tag

    @property
    def car_year(self) -> int | None:
        """The car's model year, None when it is not said."""
        return self.car.year

    @property
    def car_built(self) -> str | None:
        """The car's month of build, YYYY-MM, None when it is not said."""
        return self.car.built

    @property
    def car_trim(self) -> str | None:
        """The car's trim, None when it is not said."""
        return self.car.trim

    @property
    def car_drive_side(self) -> DriverSeat | None:
        """The side the car's driver sits on, None when it is not said."""
        return self.car.drive_side

    @property
    def impedance_mohm(self) -> float | None:
        """The meter's input resistance [MΩ], None when not known."""
        return self.meter.impedance_mohm if self.meter else None

    @property
    def true_rms(self) -> Tri:
        """Whether the meter shows true RMS."""
        return self.meter.true_rms if self.meter else "unknown"
