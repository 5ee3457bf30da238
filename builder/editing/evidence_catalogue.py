"""What can be wrong with a bay sheet besides its shape."""

from __future__ import annotations

from builder.findings import CatalogueEntry, Severity, refused_and_accepted

NO_SUCH_RECORD = CatalogueEntry(
    id="BAY101",
    slug="sheet-names-no-record",
    title="A bay sheet of a record that the book does not have",
    severity=Severity.STOP,
    what="A bay sheet whose vehicle or job is no record of the book, cannot be read, or whose job "
    "is about another vehicle.",
    why="Readings filed under the wrong car are worse than none: they prove pins nobody touched.",
    example=refused_and_accepted("vehicle: ostrel-tansy-2071", "vehicle: ostrel-tansy-2017"),
    fix="Type the id as the foot of the sheet has it, or say with --book which book is meant.",
)
NO_SUCH_PLACE = CatalogueEntry(
    id="BAY102",
    slug="sheet-reads-no-pin",
    title="A reading of a place that the record does not describe",
    severity=Severity.STOP,
    what="A reading of a bay sheet in a plug, cavity, pair or fuse position that the vehicle "
    "record does not describe, or describes twice for different trims.",
    why="A reading needs a wire to stand under. Which function the wire has is for a person to "
    "say, never for a tool to guess from one figure.",
    example=refused_and_accepted(
        "{plug: A, cavity: 44, state: run, quantity: dc_v, value: 12.1, battery_v: 12.4}",
        "{plug: A, cavity: 4, state: run, quantity: dc_v, value: 12.1, battery_v: 12.4}",
    ),
    fix="Correct the place, or describe the wire in the vehicle record first.",
)
NO_SUCH_TEST = CatalogueEntry(
    id="BAY103",
    slug="sheet-fills-no-test",
    title="A result for a line that the job's sheet does not have",
    severity=Severity.STOP,
    what="A result of a bay sheet under a name that no line of the job's sheet has now.",
    why="The line that it was meant for would count as not done.",
    example=refused_and_accepted(
        "{test: batery-rest, value: 12.4}", "{test: battery-rest, value: 12.4}"
    ),
    fix="Type the name as it is printed on the sheet, or delete the line.",
)
OTHER_STATE = CatalogueEntry(
    id="BAY104",
    slug="sheet-of-another-state",
    title="A bay sheet of another state of its plan",
    severity=Severity.WARN,
    what="A bay sheet whose sum differs from the one the sheet would have today. It is added all "
    "the same: every pin and line that it names is still there.",
    why="What the plan says has changed since the sheet was printed or saved, a band perhaps; or "
    "the sheet is of a version of this program that made its sum otherwise.",
    example=refused_and_accepted("record: 00000000", "record: 1f2e3d4c"),
    fix="Look at what has changed, with loombook diff. Nothing need be typed.",
)
NOTHING_FILLED = CatalogueEntry(
    id="BAY105",
    slug="sheet-is-empty",
    title="A bay sheet with nothing on it",
    severity=Severity.STOP,
    what="A bay sheet without a reading and without a result.",
    why="A visit that read nothing is no evidence.",
    example=refused_and_accepted(
        "readings: []", "results: [{test: battery-rest, value: <read it>}]"
    ),
    fix="Fill in what was read; in a sheet to fill by hand, take the # off each filled line.",
)
SHARED_RECORD = CatalogueEntry(
    id="BAY106",
    slug="sheet-for-another-book",
    title="A bay sheet of a record that another book keeps",
    severity=Severity.STOP,
    what="A bay sheet with old notes of a vehicle, or results of a job, that this book only draws "
    "on: it stands in a shared book kept by others, and would have to be changed. Nothing is "
    "written, neither there nor here. Readings of such a vehicle are no such thing: they become a "
    "visit among the book's own records.",
    why="A shop's command must not change files that are not the shop's. What is measured in one "
    "shop helps all of them only when those who keep the shared record see it.",
    example=refused_and_accepted(
        "# of a car in the shared book\nvehicle: ostrel-tansy-2017\nold_notes: [...]",
        "# the same car, in private/vehicles/ostrel/ostrel-tansy-2017.yaml with\n"
        "# replaces: {id: ostrel-tansy-2017, reason: our own readings}\n"
        "vehicle: ostrel-tansy-2017\nold_notes: [...]",
    ),
    fix="Send the sheet to those who keep the shared book, or add it there yourself with --book. "
    "To keep it in the shop, copy the record into a private folder, say in the copy that it "
    "replaces the shared one, and add the sheet again.",
)
PHOTO_REFUSED = CatalogueEntry(
    id="BAY107",
    slug="photo-of-sheet-refused",
    title="A photo that a bay sheet names and that cannot be kept",
    severity=Severity.STOP,
    what="A note of a bay sheet names a photo that did not come with it, is no JPEG picture, is "
    "too large, or has the name of another photo that lies beside the job.",
    why="A photo that is named and not there is looked for in vain when the trim is closed.",
    example=refused_and_accepted(
        "notes: [{at: ends-closed-off, photo: not-in-the-zip.jpg}]",
        "notes: [{at: ends-closed-off, photo: tansy-subwoofer-ends-closed-off-1.jpg}]",
    ),
    fix="Add the .zip as the phone saved it, or lay the photo beside the sheet under that name; "
    "or take the name out of the note.",
)
EVIDENCE_CATALOGUE = (
    *(NO_SUCH_RECORD, NO_SUCH_PLACE, NO_SUCH_TEST, OTHER_STATE, NOTHING_FILLED, SHARED_RECORD),
    PHOTO_REFUSED,
)
