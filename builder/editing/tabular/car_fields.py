"""The one table of what is said of the whole car, one row a field."""

from __future__ import annotations

from typing import Literal, NamedTuple

from builder.editing.drafts.vehicle_draft import QUESTIONS
from builder.editing.tabular.columns import ManyGroup
from builder.editing.tabular.words import plain
from builder.findings import DataPath
from builder.schema_check.schemas import schema_at


class Field(NamedTuple):
    """A field: how the table names it, where it goes in the record, its other names.

    A field of a `group` (plug, visit, channel, sound) names one of many: `plug A housing`.
    """

    label: str
    path: DataPath
    others: tuple[str, ...] = ()
    group: ManyGroup | Literal[""] = ""

    @property
    def at(self) -> DataPath:
        """Where the schema of a vehicle describes it."""
        return (GROUPS[self.group][0], 0, *self.path) if self.group else self.path

    @property
    def meaning(self) -> str:
        """What it means, in a sentence."""
        return str(schema_at("vehicle", self.at).get("description", ""))

    @property
    def heading(self) -> str:
        """The field as the template writes it."""
        return f"{self.group} {GROUPS[self.group][2]} {self.label}" if self.group else self.label


GROUPS: dict[ManyGroup, tuple[str, str, str]] = {
    "plug": ("plugs", "id", "A"),
    "visit": ("sessions", "id", "s1"),
    "channel": ("channels", "channel", "front-left"),
    "sound": ("protected_sounds", "", "1"),
}
"""Of each group: its list in the record, the key that its name becomes, and an example of one."""


def _plug(label: str, key: str, *others: str) -> Field:
    return Field(label, (key,), others, "plug")


def _session(label: str, *path: str) -> Field:
    return Field(label, path, (), "visit")


def _channel(label: str, *path: str) -> Field:
    return Field(label, path, (), "channel")


FIELDS: tuple[Field, ...] = (
    Field("id", ("id",)),
    Field("data", ("data",), ("invented or measured",)),
    Field("make", ("make",), ("maker", "manufacturer")),
    Field("model", ("model",)),
    Field("variant", ("variant",), ("version",)),
    Field("generation", ("generation",)),
    Field("year from", ("scope", "year_from"), ("first year", "from year")),
    Field("year to", ("scope", "year_to"), ("last year", "to year")),
    Field("built from", ("scope", "build_from"), ("build from",)),
    Field("built to", ("scope", "build_to"), ("build to",)),
    Field("bodies", ("scope", "bodies"), ("body",)),
    Field("markets", ("scope", "markets"), ("market",)),
    Field("drive side", ("scope", "drive_side"), ("steering", "driver side")),
    Field("trims", ("scope", "trims"), ("trim",)),
    Field("options, at least one of", ("scope", "options_any"), ("options any",)),
    Field("options, none of", ("scope", "options_none"), ("options none",)),
    Field("radios", ("scope", "radios"), ("radio",)),
    Field("radio outputs", ("radio", "outputs"), ("outputs",)),
    Field("radio label (W)", ("radio", "label_w")),
    Field("radio open-load check", ("radio", "open_load_check"), ("open load check",)),
    Field("radio woken by data", ("radio", "data_wake"), ("data wake",)),
    Field("factory amplifier feed", ("factory_amplifier", "feed"), ("factory amplifier",)),
    Field("factory amplifier location", ("factory_amplifier", "location"), ("amplifier location",)),
    Field("start-stop", ("features", "start_stop")),
    Field("hybrid", ("features", "hybrid")),
    Field("noise cancellation", ("features", "noise_cancellation")),
    Field("engine sound", ("features", "engine_sound")),
    Field("emergency call", ("features", "emergency_call")),
    Field("battery location", ("power", "battery", "location")),
    Field("battery capacity (Ah)", ("power", "battery", "capacity_ah"), ("battery ah",)),
    Field("battery sensor on negative", ("power", "battery", "sensor_on_negative"), ()),
    Field("charging by", ("power", "charging", "by")),
    Field("charging rated (A)", ("power", "charging", "rated_a"), ("alternator a",)),
    Field("charging at idle (A)", ("power", "charging", "idle_a")),
    Field("base load (A)", ("power", "base_load_a")),
    Field("base load key off (A)", ("power", "base_load_key_off_a")),
    Field("supply lead (m)", ("power", "supply_lead_m")),
    Field("ground lead (m)", ("power", "ground_lead_m")),
    Field("restraint zones", ("safety", "restraint_zones"), ("airbag zones",)),
    Field("high-voltage zones", ("safety", "high_voltage_zones")),
    Field("restraint wait (min)", ("safety", "restraint_wait_min")),
    Field("cautions", ("safety", "cautions")),
    Field("edited", ("edited",)),
    Field("protected sounds", ("protected_sounds",)),
    Field("name", ("sound",), (), "sound"),
    Field("channels", ("channels",), (), "sound"),
    Field("plays key off", ("plays_key_off",), (), "sound"),
    _plug("housing", "housing"),
    _plug(
        "housing colours",
        "shell_colours",
        "shell colours",
        "shell colour",
        "colour",
        "shell colors",
        "shell color",
    ),
    _plug("read from", "read_from", "face"),
    _plug("name", "name"),
    _plug("unit", "unit"),
    _plug("location", "location"),
    _plug("empty", "empty", "empty cavities"),
    _session("by", "by"),
    _session("date", "date"),
    _session("car tag", "car", "tag"),
    _session("car year", "car", "year"),
    _session("car built", "car", "built"),
    _session("car trim", "car", "trim"),
    _session("car drive side", "car", "drive_side"),
    _session("measured with", "method"),
    _session("read from", "read_from"),
    _session("against", "against"),
    _session("meter (MΩ)", "meter", "impedance_mohm"),
    _session("true RMS", "meter", "true_rms"),
    _channel("driven by", "driven_by"),
    _channel("speaker (Ω)", "speaker_ohm"),
    _channel("band", "band"),
    _channel("lowpass (Hz)", "lowpass_hz"),
    _channel("highpass (Hz)", "highpass_hz"),
    _channel("clean level (V)", "level", "clean_max_v_rms"),
    _channel("clean level at volume step", "level", "at_volume_step"),
    _channel("label (W)", "level", "label_w"),
    _channel("label (Ω)", "level", "label_ohm"),
    _channel("delay (ms)", "delay_ms"),
    _channel("polarity", "polarity"),
    _channel("volume", "volume"),
    _channel("upmix", "upmix"),
    _channel("in line", "in_line"),
    _channel("shared return", "shared_return"),
)
NOT_HELD: tuple[DataPath, ...] = (
    ("replaces",),
    ("how_to_tell",),
    ("radio", "removal"),
    ("factory_amplifier", "rail_v"),
    ("fuse_positions",),
    ("channels", 0, "bass_table"),
    ("plugs", 0, "look_alikes"),
    ("accept",),
    ("resolutions",),
    ("photos",),
)
"""What a table has no place for; it is typed into the record afterwards."""

DEFAULTS: dict[DataPath, str] = {
    **{
        question.path: question.default
        for question in QUESTIONS
        if question.path and question.default
    },
    ("data",): "measured",
}
"""What a field is when the table does not say: the same as when `new vehicle` is not told."""


def field_of(label: str) -> Field | None:
    """The field of the whole car that a label names, or None."""
    name = plain(label)
    return next((f for f in FIELDS if not f.group and name in _names(f)), None)


def field_in_group(group: ManyGroup, label: str) -> Field | None:
    """The field of a plug, visit, channel or sound that a label names, or None."""
    name = plain(label)
    return next((f for f in FIELDS if f.group == group and name in _names(f)), None)


def _names(field: Field) -> tuple[str, ...]:
    path = " ".join(str(step) for step in field.path)
    return tuple(plain(name) for name in (field.label, *field.others, path, ".".join(field.path)))  # type: ignore[arg-type]
