"""The explanation of every shape finding, as data: the site makes a page of each."""

from __future__ import annotations

from builder.findings import CatalogueEntry, Severity, refused_and_accepted

_FORMAT = "Chosen by this project: the record format, written as JSON Schema 2020-12"


def _entry(
    number: int, slug: str, title: str, severity: Severity = Severity.STOP, **said: str
) -> CatalogueEntry:
    return CatalogueEntry(f"SCH{number}", slug, title, severity, source=_FORMAT, **said)


_KEYS = (
    _entry(
        101,
        "unknown-key",
        "A key that the record format does not know",
        what="A key that is misspelled, that belongs to another part of the record, or that was "
        "never part of it.",
        why="A misspelled key would be passed over in silence, and the page would say that nobody "
        "measured what somebody did measure.",
        fix="Take the spelling that the finding proposes, move the key to where it belongs, or "
        "write the thought into a note.",
        example=refused_and_accepted(
            "- {cavity: 5, funktion: ground}", "- {cavity: 5, function: ground}"
        ),
    ),
    _entry(
        102,
        "missing-key",
        "A key that must be there is missing",
        what="A record, or a part of one, without a key that all of its kind have.",
        why="Left out could mean none, unknown or forgotten; for these keys a plan has to know "
        "which of the three it is.",
        fix="Add the key. Where you have not looked, the word unknown is a full answer for most.",
        example=refused_and_accepted(
            "- {session: s1, quantity: dc_v, value: <what was read>}",
            "- {session: s1, state: run, quantity: dc_v, value: <what was read>}",
        ),
    ),
    _entry(
        107,
        "not-allowed-here",
        "A key that means nothing beside the other values",
        what="A key that is legal in its place, but not together with another value of the same "
        "part: a channel on a ground wire, a supply on a passive converter.",
        why="One of the two is wrong, and only you know which.",
        fix="Delete the key, or correct the value that forbids it.",
        example=refused_and_accepted(
            "- {cavity: 5, function: ground, channel: front-left}",
            "- {cavity: 5, function: ground}",
        ),
    ),
    _entry(
        108,
        "needed-here",
        "A key that another value asks for is missing",
        what="A part whose own values ask for a further key: a speaker wire without channel and "
        "leg, a voltage without the battery's voltage, an asleep reading without minutes.",
        why="The value cannot be judged alone: 11.8 V is good at a battery of 11.9 V and bad at "
        "one of 12.7 V.",
        fix="Add the key. What was not read at the time cannot be guessed: read it again, or "
        "leave the whole reading out.",
        example=refused_and_accepted(
            "- {session: s1, state: run, quantity: dc_v, value: 12.31}",
            "- {session: s1, state: run, quantity: dc_v, value: 12.31, battery_v: <read it>}",
        ),
    ),
)

_VALUES = (
    _entry(
        103,
        "wrong-type",
        "A value of the wrong kind",
        what="Text where a number belongs, a single value where a list belongs, and the like. A "
        "number with its unit behind it, or with a decimal comma, is text.",
        why="Only numbers can be compared with limits, and only lists can hold a second entry.",
        fix="Write numbers without quotes and without the unit (the key's name holds it), lists "
        "in brackets, and text that looks like a number in quotes.",
        example=refused_and_accepted("base_load_a: 42 A", "base_load_a: 42"),
    ),
    _entry(
        104,
        "not-in-list",
        "A word that is not in the closed list",
        what="A value for which the record format has a fixed list of words.",
        why="Rules, plans and the search work with these words; another word for the same thing "
        "would be found by none of them.",
        fix="Take the word that the finding proposes, or choose from the list it prints.",
        example=refused_and_accepted("function: earth", "function: ground"),
    ),
    _entry(
        105,
        "out-of-range",
        "A number outside what can be",
        what="A number that no 12 V car, wire or part can have.",
        why="Most of these are a slipped decimal point or another unit: 12620 is millivolts.",
        fix="Correct the number; the unit is in the key's name.",
        example=refused_and_accepted("battery_v: 12620", "battery_v: 12.62"),
    ),
    _entry(
        106,
        "wrong-form",
        "Text that is not written in the form asked for",
        what="An id with capitals or spaces, a date in another order, a day that is not in the "
        "calendar, a cavity that is neither a number nor a letter.",
        why="Ids become file names and addresses, and dates are sorted; both must be written one "
        "way only.",
        fix="Write it in the form that the finding names.",
        example=refused_and_accepted("date: 13.5.2024", "date: 2024-05-13"),
    ),
    _entry(
        109,
        "wrong-here",
        "A value that is not allowed beside the other values",
        what="A value that is legal in its place, but not together with another value of the same "
        "part: ohms read while the radio plays, volts that are open.",
        why="Ohms read on a live circuit are not ohms, and can cost the meter.",
        fix="Correct whichever of the two is wrong.",
        example=refused_and_accepted(
            "- {session: s1, state: run, quantity: ohm, value: 3.3}",
            "- {session: s1, state: unplugged, quantity: ohm, value: 3.3}",
        ),
    ),
    _entry(
        110,
        "empty-value",
        "A key with nothing behind it",
        what="A key whose value was left empty, or is only spaces.",
        why="Empty is neither unknown nor none, and nobody can tell what was meant.",
        fix="Write the value. If you have not looked and the key allows it, write unknown; if the "
        "key is optional, delete the line.",
        example=refused_and_accepted("location:", "location: behind the radio, left"),
    ),
    _entry(
        111,
        "wrong-length",
        "Text that is too long or too short",
        what="A text beyond the length of its key, or a reason too short to be one.",
        why="Long text breaks drawings and bay sheets; a reason of three letters explains nothing.",
        fix="Shorten it, or say more.",
        example=refused_and_accepted(
            "reason: ok", "reason: two white wires in this plug and no way round it"
        ),
    ),
    _entry(
        112,
        "wrong-count",
        "A list with too few or too many entries",
        what="A list that must hold something and is empty, or that holds more than any real part.",
        why="A scope without a trim is about no car at all.",
        fix="Add an entry; `[all]` or `[unknown]` is one where the key's description says so.",
        example=refused_and_accepted("trims: []", "trims: [all]"),
    ),
    _entry(
        113,
        "repeated-item",
        "An entry that stands twice in a list",
        what="The same entry twice in a list of different things.",
        why="One of the two was probably meant to be another.",
        fix="Delete one of them, or correct it.",
        example=refused_and_accepted("empty: [6, 6]", "empty: [6, 7]"),
    ),
    _entry(
        114,
        "wrong-version",
        "A record format that this version does not read",
        what="A `schema` number other than those this version of the program reads.",
        why="A newer record may say things that this version would misunderstand.",
        fix="Use a newer version of loombook for a newer record: `schema/CHANGES.md` says what "
        "each format holds. A number that no format ever had is typed as the finding says.",
        example=refused_and_accepted("schema: 2", "schema: 1"),
    ),
    _entry(
        115,
        "more-faults",
        "More faults in a file than are told",
        what="A file with more than a hundred faults of shape: the first are told, the rest "
        "counted.",
        why="So many have one cause, such as a file of another kind, or a list one level too deep.",
        fix="Mend the first faults and run the check again.",
        example=refused_and_accepted(
            "pairs: [[brown, brown/black], …]   # and so on, sixty times",
            "pairs:\n  - {positive: {base: brown}, negative: {base: brown, stripe: black}}",
        ),
    ),
)

_SHORT = (
    _entry(
        116,
        "line-not-read",
        "A line of text that cannot be read",
        what="A line in the place of a pin or a reading, with a word that nobody knows, one that "
        "stands for several things, or something missing.",
        why="A guess would stand in the record like something that somebody saw: `bl` is black to "
        "one shop and blue to the next.",
        fix="Write the word out, as the finding says, or the entry with its keys. Of a pin the "
        "cavity comes first, then what the wire does, its colours and its size; of a reading the "
        "visit, unless there is only one, the state, the figure and the battery.",
        example=refused_and_accepted("- 16 illum bl/wht", "- 16 illum blue/wht"),
    ),
    _entry(
        117,
        "line-for-entry",
        "A pin or a reading written as one line",
        Severity.NOTE,
        what="A line of text in the place of an entry. It is read in the words that the interview "
        "and tables read.",
        why="So that you can see whether it was read as it was meant.",
        fix="Look whether it was read as you meant it. `loombook mend` writes the entry out.",
        example=refused_and_accepted(
            "- 4 acc yel/red", "- {cavity: 4, function: accessory, wire: {base: yellow, "
            "stripe: red}}",
        ),
    ),
    _entry(
        118,
        "left-out-unknown",
        "A key that is left out, and read as unknown",
        Severity.NOTE,
        what="A key of a vehicle that says what nobody looked at by the word unknown, and is not "
        "there. It is never read as none: a plan takes the worst.",
        why="Left out could also mean forgotten, so the record should say which it was.",
        fix="Type what you found, or let `loombook mend` type unknown.",
        example=refused_and_accepted(
            "radio: {outputs: bridged}",
            "radio: {outputs: bridged, open_load_check: unknown, data_wake: unknown}",
        ),
    ),
)  # fmt: skip

CATALOGUE: tuple[CatalogueEntry, ...] = tuple(
    sorted(_KEYS + _VALUES + _SHORT, key=lambda entry: entry.id)
)
"""All shape findings, by id."""

SLUGS: dict[str, str] = {entry.id: entry.slug for entry in CATALOGUE}
