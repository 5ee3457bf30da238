"""The one table of columns: the template, the import, the export and the handbook read it."""

from __future__ import annotations

from typing import Any, Literal, NamedTuple

from builder.findings import DataPath
from builder.schema_check.schemas import schema_at

PIN: DataPath = ("plugs", 0, "pins", 0)
SESSION: DataPath = ("sessions", 0)
CLAIM: DataPath = (*PIN, "claims", 0)
READING: DataPath = (*PIN, "readings", 0)

Group = Literal["where", "pin", "visit", "claim", "row", "reading"]
ManyGroup = Literal["plug", "visit", "channel", "sound"]
"""What a row of the car names one of: `plug A housing`."""


class Column(NamedTuple):
    """A column of the pins: its heading, where its value goes within its group, its other names.

    `help` is given where the schema's own description does not do.
    """

    heading: str
    group: Group
    key: DataPath
    others: tuple[str, ...] = ()
    help: str = ""

    @property
    def at(self) -> DataPath:
        """Where the schema of a vehicle describes it; () for a column of no single key."""
        bases: dict[Group, DataPath] = {
            "pin": PIN,
            "visit": SESSION,
            "claim": CLAIM,
            "reading": READING,
        }
        return (*bases[self.group], *self.key) if self.group in bases else ()

    @property
    def meaning(self) -> str:
        """What it means, in a sentence."""
        return self.help or str(schema_at("vehicle", self.at).get("description", ""))

    @property
    def words(self) -> tuple[str, ...]:
        """The words it takes, when they are a closed list."""
        return words_at(self.at)


def held_at(data: Any, path: DataPath) -> Any:
    """What a record, or a part of one, holds at a path; None for nothing."""
    for step in path:
        data = data.get(step) if isinstance(data, dict) else None
    return data


def words_at(at: DataPath) -> tuple[str, ...]:
    """The closed list of words of a place in a vehicle record; () without one."""
    schema = schema_at("vehicle", at) if at else {}
    return tuple(schema.get("enum", ()) if schema.get("type") == "string" else ())


COLUMNS: tuple[Column, ...] = (
    Column("plug", "where", ("plug",), ("connector",), "The letter of the plug, as on the car."),
    Column(
        *("cavity", "where", ("cavity",), ("pin", "pin no", "pin number", "position", "way")),
        "The number or letter moulded beside the cavity. Every filled row needs both.",
    ),
    Column(
        *("function", "pin", ("function",), ("use", "does", "signal")),
        "What the wire does; fl+ and the like for a speaker wire; empty for a cavity without a "
        "terminal. Leave it blank in a further row of the same pin.",
    ),
    Column("channel", "pin", ("channel",), ("speaker", "corner")),
    Column("polarity", "pin", ("leg",), ("leg", "pole", "sign"), "+ or -, of a speaker wire."),
    Column(
        *("wire colour", "row", ("colours",), ("wire color", "colour", "color", "wire", "colours")),
        "Base and stripe in one cell, like white/black; instead of the next two columns.",
    ),
    Column("wire base", "pin", ("wire", "base"), ("base", "base colour", "base color")),
    Column("wire stripe", "pin", ("wire", "stripe"), ("stripe", "stripe colour", "tracer")),
    Column("wire (mm²)", "pin", ("wire", "size_mm2"), ("mm2", "size mm2", "wire size mm2")),
    Column("wire (AWG)", "pin", ("wire", "size_awg"), ("awg", "gauge", "size awg")),
    Column("fuse place", "pin", ("fuse", "place"), ("fuse", "fuse position")),
    Column("fuse (A)", "pin", ("fuse", "rating_a"), ("fuse rating a", "fuse rating")),
    Column("max source (mA)", "pin", ("max_source_ma",), ("max source", "source ma")),
    Column("level (V)", "pin", ("level_v",), ("output level v",)),
    Column("only trims", "pin", ("only_if", "trims"), ("only if trims",)),
    Column("only options", "pin", ("only_if", "options_any"), ("only if options",)),
    Column("only without options", "pin", ("only_if", "options_none"), ("only if not options",)),
    Column("note", "pin", ("note",), ("notes", "remark", "remarks", "comment", "comments")),
    Column(
        *("visit", "visit", ("id",), ("session",)),
        "The name of a visit described on the sheet car; leave it blank and fill the next columns.",
    ),
    Column("who", "visit", ("by",), ("by", "measured by", "shop")),
    Column("date", "visit", ("date",), ("day", "measured on")),
    Column("car tag", "visit", ("car", "tag"), ("tag",)),
    Column("car year", "visit", ("car", "year"), ()),
    Column("car built", "visit", ("car", "built"), ("built",)),
    Column("car trim", "visit", ("car", "trim"), ()),
    Column("car drive side", "visit", ("car", "drive_side"), ()),
    Column("measured with", "visit", ("method",), ("method", "meter", "meter or scope")),
    Column("read from", "visit", ("read_from",), ("face", "side", "counted on")),
    Column("against", "visit", ("against",), ("black probe on", "reference")),
    Column("meter (MΩ)", "visit", ("meter", "impedance_mohm"), ("meter mohm", "impedance mohm")),
    Column("true RMS", "visit", ("meter", "true_rms"), ()),
    Column("claim by", "claim", ("by",), ("claimed by", "told by")),
    Column("claim date", "claim", ("date",), ()),
    Column("claim from", "claim", ("method",), ("claim method",)),
    Column("claim says", "claim", ("says",), ("claimed function",)),
    Column("claim channel", "claim", ("channel",), ()),
    Column("claim polarity", "claim", ("leg",), ("claim leg",)),
    Column("claim source", "claim", ("source",), ("source",)),
    Column("claim read from", "claim", ("read_from",), ("claim face",)),
    Column(
        *("battery (V)", "row", ("battery_v",), ("battery", "battery volts", "vbat", "batt v")),
        "The battery's own voltage, for every voltage of the row that has none of its own.",
    ),
    Column("reading state", "reading", ("state",), ("state",)),
    Column("reading load", "reading", ("load",), ("load",)),
    Column("reading against", "reading", ("against",), ()),
    Column("reading quantity", "reading", ("quantity",), ("quantity",)),
    Column("reading value", "reading", ("value",), ("value", "reading")),
    Column("reading battery (V)", "reading", ("battery_v",), ()),
    Column("reading minutes", "reading", ("minutes",), ()),
    Column("reading lasts (s)", "reading", ("lasts_s",), ("lasts s",)),
    Column("reading from (V)", "reading", ("from_v",), ()),
    Column("reading volume step", "reading", ("volume_step",), ()),
    Column("reading tone (Hz)", "reading", ("tone_hz",), ()),
    Column("reading note", "reading", ("note",), ()),
)
