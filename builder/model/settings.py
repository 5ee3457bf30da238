"""The settings of a book: what a person types into `book.yaml`."""

from __future__ import annotations

from typing import Any

from builder.declaring import Form, figure, listed, part, read, record, schema_of, text, word
from builder.model.forms import ID, LINE, SCHEMA_VERSION
from builder.model.house_defaults import HouseDefaults
from builder.model.recording_lead import RecordingLead
from builder.model.words import RecordKind, Visibility

_ONE_LINE = {"type": "string", "pattern": "[\\n\\r\\t]"}
_FOLDER = {"minLength": 1, "maxLength": 300, "pattern": "[^ \\n\\r\\t]", "not": _ONE_LINE}


@record
class NamedRoot:
    """A folder of records, and who may see them."""

    folder: str = text(
        "The folder, with forward slashes, relative to this file.", "private", "../shared/pinouts",
        form=Form("", "", _FOLDER), key="path",
    )  # fmt: skip
    visibility: Visibility = word(
        "Who may see the records in it.", "private",
        means={"shared": "Everybody: the records are published.",
        "private": "This shop alone: a build with --public leaves the folder out."},
    )  # fmt: skip


_NAMED = schema_of(NamedRoot)
FOLDER = Form(
    "", "A folder, with forward slashes, relative to this file; . is this file's own folder. The "
    "path alone means that it is shared.", {"type": ["string", "object"], **_FOLDER,
    **{key: _NAMED[key] for key in ("required", "additionalProperties", "properties")}},
)  # fmt: skip
"""What an entry of `roots` is: a path, or a path and who may see it."""


def _roots(entries: list[str | dict[str, Any]]) -> tuple[NamedRoot, ...]:
    """The folders; a path alone is one that everybody sees."""
    told = (
        {"path": one, "visibility": "shared"} if isinstance(one, str) else one for one in entries
    )
    return tuple(read(NamedRoot, one) for one in told)


@record
class Renaming:
    """One old name and the new one."""

    kind: RecordKind = word(
        "What is called so.", "vehicle",
        means={"vehicle": "A record in vehicles.", "housing": "A record in housings.",
        "converter": "A record in converters.", "amplifier": "A record in amplifiers.",
        "cable": "A record in cables.", "loom": "A record in looms.",
        "interface": "A record in interfaces.", "job": "A record in jobs.",
        "contributor": "A shop or handle that measured, said or settled something.",
        "visit": "A record in visits."},
    )  # fmt: skip
    was: str = text("The old id. No record may have it again.", "sample-bass", form=ID)
    now: str = text("The id that it has today.", "sample-base", form=ID)

    @property
    def old(self) -> tuple[RecordKind, str]:
        """What it renames, by kind and old id."""
        return (self.kind, self.was)

    @property
    def new(self) -> tuple[RecordKind, str]:
        """The same by its new id."""
        return (self.kind, self.now)


@record
class BookSettings:
    """The settings of a book: what it is called, where its records are, and which house defaults
    its shop has changed.
    """

    schema: int = figure(
        "The version of the record format.", "", 1, form=SCHEMA_VERSION, default=1,
    )  # fmt: skip
    site_name: str = text(
        "What the built site is called.", "The north workshop's book", form=LINE,
        default="loombook",
    )  # fmt: skip
    site_address: str = text(
        "Where the built site will stand, https only; a code on each printed page leads back to "
        "it.", "https://pins.example/book/", default="", form=Form("", "", {"maxLength": 200,
        "pattern": "^https://[A-Za-z0-9.-]+(:[0-9]+)?(/[A-Za-z0-9._~/-]*)?$", "not": _ONE_LINE}),
    )  # fmt: skip
    data_licence: str = text(
        "Under which terms others may use the records of this book; it stands in every data file "
        "of the site.", "CC0-1.0", form=LINE, default="",
    )  # fmt: skip
    roots: tuple[NamedRoot, ...] = listed(
        "The folders that hold record folders; left out, this file's own folder.",
        [{"path": "../shared/pinouts", "visibility": "shared"}, {"path": "private",
        "visibility": "private"}], ["."], least=1, most=20, unique=True,
        default=(NamedRoot(folder=".", visibility="shared"),), read=_roots,
    )  # fmt: skip
    renamed: tuple[Renaming, ...] = listed(
        "What records and contributors were called before. Records that name an old id, and pages "
        "under its address, lead to the new one.", [{"kind": "vehicle", "was": "sample-bass",
        "now": "sample-base"}], [{"kind": "contributor", "was": "north-bay",
        "now": "north-bay-audio"}], most=1000, unique=True, default=(),
    )  # fmt: skip
    report_address: str = text(
        "Where a correction of a pin is sent: an address with {title} and {body} in it, which the "
        "pages fill in.", "https://forge.example/shop/book/issues/new?title={title}&body={body}",
        "mailto:book@shop.example?subject={title}&body={body}", default="", form=Form("", "",
        {"minLength": 8, "maxLength": 500, "pattern": "^(https://|mailto:)[!#-;=?-_a-~]+$",
        "not": _ONE_LINE, "formMeaning": "an https or mailto address without spaces, with {title} "
        "and {body} where the text goes"}),
    )  # fmt: skip
    recording_leads: tuple[RecordingLead, ...] = listed(
        "The leads that this shop records pairs with.", [{"id": "lead-1", "clip_ohm": None,
        "across_ohm": None, "isolation": "balanced", "reference_ohm": None, "on_body": "no",
        "input": "balanced", "recorder_supply": "battery", "polarity": "kept"}], most=20,
        default=(),
    )  # fmt: skip
    house_defaults: HouseDefaults = part(
        {"asleep_min": 30}, default=HouseDefaults(),
    )  # fmt: skip
