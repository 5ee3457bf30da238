"""`pins.csv`: one row for every described pin of the book, as RFC 4180 says.

Cells are what the record says; columns that begin with `computed_` are what this build made of
it. A spreadsheet runs a cell as a formula when it begins with certain characters, so such a cell
is given a leading apostrophe, which whoever reads the file takes off again.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple

from builder.findings import DataPath
from builder.model.plugs import Condition, Pin, Plug
from builder.model.vehicle import Vehicle
from builder.proof.pin_proof import PinProof

URL = "data/pins.csv"
METADATA_URL = "data/pins.csv-metadata.json"
APOSTROPHE = "'"
RUNS = "=+-@\t\r\n＝＋－＠"
"""First characters that make a spreadsheet run a cell. Common practice, no source."""


class PinRow(NamedTuple):
    """One pin with what a row is made from. `record_sha256` is the sum of the record's file."""

    vehicle: Vehicle
    record_sha256: str
    plug: Plug
    pin: Pin
    proof: PinProof

    def wire(self, key: str) -> object:
        """What is known of the wire; None where nothing is."""
        return getattr(self.pin.wire, key, None)


class Column(NamedTuple):
    """One column: its name, its type in the words of XML Schema, what it holds, and whence."""

    name: str
    datatype: str
    what: str
    of: Callable[[PinRow], Any]


def _condition(row: PinRow) -> str:
    only_if = row.pin.only_if or Condition()
    named = (
        ("trims", only_if.trims),
        ("options_any", only_if.options_any),
        ("options_none", only_if.options_none),
    )
    return "; ".join(f"{name}: {', '.join(words)}" for name, words in named if words)


COLUMNS = (
    Column("vehicle", "string", "Id of the vehicle record.", lambda r: r.vehicle.id),
    Column("make", "string", "Make.", lambda r: r.vehicle.make),
    Column("model", "string", "Model.", lambda r: r.vehicle.model),
    Column("variant", "string", "What tells it from its sisters.", lambda r: r.vehicle.variant),
    Column("year_from", "integer", "First model year.", lambda r: r.vehicle.scope.year_from),
    Column("year_to", "integer", "Last model year.", lambda r: r.vehicle.scope.year_to),
    Column("plug", "string", "Id of the plug.", lambda r: r.plug.id),
    Column("housing", "string", "Id of the plug's housing.", lambda r: r.plug.housing),
    Column("cavity", "string", "Cavity of the plug.", lambda r: r.pin.cavity),
    Column("function", "string", "What the wire does, one word.", lambda r: r.pin.function),
    Column("channel", "string", "Channel of a speaker or line wire.", lambda r: r.pin.channel),
    Column("leg", "string", "positive or negative, of a pair.", lambda r: r.pin.leg),
    Column("wire_base", "string", "Base colour of the insulation.", lambda r: r.wire("base")),
    Column("wire_stripe", "string", "Colour of the stripe.", lambda r: r.wire("stripe")),
    Column("wire_size_mm2", "decimal", "Conductor, in mm².", lambda r: r.wire("size_mm2")),
    Column("wire_size_awg", "string", "Conductor, AWG number.", lambda r: r.wire("size_awg")),
    Column(
        "fuse_place", "string", "Fuse that feeds it.", lambda r: r.pin.fuse and r.pin.fuse.place
    ),
    Column(
        "fuse_rating_a",
        "decimal",
        "Rating of that fuse, in A.",
        lambda r: r.pin.fuse and r.pin.fuse.rating_a,
    ),
    Column(
        "max_source_ma",
        "decimal",
        "Most that may be drawn from it, in mA.",
        lambda r: r.pin.max_source_ma,
    ),
    Column("level_v", "decimal", "Level of an output, in V.", lambda r: r.pin.level_v),
    Column("only_if", "string", "Trims and options it holds for; empty: all.", _condition),
    Column("readings", "integer", "How many readings.", lambda r: len(r.pin.readings)),
    Column("claims", "integer", "How many claims, not measured.", lambda r: len(r.pin.claims)),
    Column(
        *("old_notes", "integer", "How many old notes, which prove nothing."),
        lambda r: len(r.pin.old_notes),
    ),
    Column("note", "string", "What a person should know.", lambda r: r.pin.note),
    Column("data", "string", "invented or measured.", lambda r: r.vehicle.data),
    Column(
        "record_sha256",
        "string",
        "SHA-256 of the record's file, in hexadecimal.",
        lambda r: r.record_sha256,
    ),
    Column("computed_grade", "string", "Grade, one of six words.", lambda r: r.proof.band),
    Column("computed_score", "decimal", "Score, 0 to 1.", lambda r: round(r.proof.score, 4)),
)


def header() -> str:
    """The first row of the file."""
    return _lines([[column.name for column in COLUMNS]])


def pin_lines(vehicle: Vehicle, sha256: str, proofs: Mapping[DataPath, PinProof]) -> str:
    """Return the rows of one vehicle, in the order of its record."""
    rows = (
        PinRow(vehicle, sha256, plug, pin, proofs[pin.path])
        for plug in vehicle.plugs
        for pin in plug.pins
    )
    return _lines([inert(column.of(row)) for column in COLUMNS] for row in rows)


def inert(value: object) -> str:
    """Return a cell that no spreadsheet runs: text that would be run begins with an apostrophe."""
    if value is None:
        return ""
    if isinstance(value, (int, float)):
        return str(int(value)) if value == int(value) else repr(value)
    text = str(value)
    runs = text.lstrip(" ")[:1] in tuple(RUNS) or text.startswith(APOSTROPHE)
    return APOSTROPHE + text if runs else text


def _lines(rows: Iterable[list[str]]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\r\n").writerows(rows)
    return text.getvalue()


def metadata(licence: str, as_of: str) -> dict[str, Any]:
    """Describe the file in the vocabulary for tabular data of the W3C (CSV on the Web)."""
    return {
        "@context": "http://www.w3.org/ns/csvw",
        "url": "pins.csv",
        "dc:title": "Every described pin of the book",
        "dc:license": licence,
        "dc:modified": as_of,
        "dialect": {"encoding": "utf-8", "lineTerminators": ["\r\n"], "header": True},
        "tableSchema": {
            "columns": [
                {"name": c.name, "datatype": c.datatype, "dc:description": c.what} for c in COLUMNS
            ],
            "primaryKey": ["vehicle", "plug", "cavity", "function", "only_if"],
        },
    }
