"""The explanation of every refusal of the loader, as data: the site makes pages of it.

In `example` the first fenced block is refused and the second is accepted, where a block of
plain text can show the fault at all.
"""

from __future__ import annotations

from builder.findings import CatalogueEntry, Severity

_COMMON = "common practice, no source"
_YAML = "YAML 1.2.2, section "


def _entry(
    number: int, slug: str, title: str, *, what: str, why: str, fix: str, example: str, source: str
) -> CatalogueEntry:
    return CatalogueEntry(
        id=f"YML{number}",
        slug=slug,
        title=title,
        severity=Severity.STOP,
        what=what,
        why=why,
        example=example,
        fix=fix,
        source=source,
    )


def _pair(refused: str, accepted: str) -> str:
    return f"Refused:\n\n```yaml\n{refused}\n```\n\nAccepted:\n\n```yaml\n{accepted}\n```\n"


_FILE = (
    _entry(
        101,
        "not-utf8",
        "The file is not UTF-8 text",
        what="Bytes that are no UTF-8: a file saved in an older encoding, or in UTF-16. "
        "A UTF-8 byte order mark at the start is accepted.",
        why="Degree signs, ohm signs and names would turn into others on another machine.",
        fix='In the editor choose "save with encoding", then UTF-8.',
        example="`note: warmed to 40 °C` saved as Latin-1 holds the byte 0xB0.",
        source=_YAML + "5.2 (character encodings); narrowed to UTF-8 by this project",
    ),
    _entry(
        102,
        "file-too-large",
        "The file is larger than a record can be",
        what="A file of more than 1 MiB (1,048,576 bytes).",
        why="A full record of a vehicle has about ten thousand bytes. A file a hundred times as "
        "large is a picture, a paste or an attack, and would slow the check of all the others.",
        fix="Describe one scope or one part in each file; refer to photos by name.",
        example="A record with a photo pasted into a note as a million letters.",
        source="chosen by this project",
    ),
    _entry(
        103,
        "file-unreadable",
        "The file cannot be read",
        what="A file that is missing, is a folder or a device, or may not be read by you.",
        why="A record nobody can read must not pass as one without faults.",
        fix="Check the name and the file's permissions.",
        example="`pinouts/vehicles/example/radio.yaml` is a folder.",
        source=_COMMON,
    ),
    _entry(
        104,
        "hidden-character",
        "A character nobody can see",
        what="Control characters, zero-width characters, direction marks and overrides, line "
        "separators and byte order marks inside the text, comments included, and the same "
        "written as an escape in a double-quoted text.",
        why="Two keys or cavities that look alike would be different, and text can be shown in "
        "another order than it is read: a reviewer would approve what is not there.",
        fix="Delete the character; retype the words around it instead of pasting them.",
        example=_pair('note: "pin 4\\u202E5 nip"', 'note: "pin 4"'),
        source="Unicode Technical Report 36, section 2 (visual spoofing); from memory",
    ),
)

_SHAPE = (
    _entry(
        105,
        "not-yaml",
        "The file cannot be read as YAML",
        what="A quote or bracket that is not closed, a line that is neither `key: value` nor a "
        "list item, a key out of line with its neighbours. Reading ends at the place named.",
        why="Everything behind the place could mean something else than it seems to.",
        fix="Compare the line with TEMPLATE.yaml; put text that holds a colon in quotes.",
        example=_pair("note: measured: twice", 'note: "measured: twice"'),
        source="YAML 1.2.2",
    ),
    _entry(
        106,
        "tab-for-spaces",
        "A tab where YAML wants spaces",
        what="A tab in the white space at the start of a line.",
        why="A tab is as wide as each editor likes, so that nobody sees what belongs to what.",
        fix='Replace it by spaces, two for each level. Most editors do so by "indent with spaces".',
        example=_pair("scope:\n\tdrive_side: left", "scope:\n  drive_side: left"),
        source=_YAML + "6.1 (indentation spaces)",
    ),
    _entry(
        107,
        "empty-file",
        "The file holds no record",
        what="A file of nothing but comments and white space.",
        why="An unfinished file would look like a vehicle about which nothing can be wrong.",
        fix="Copy the TEMPLATE.yaml of the kind and fill it in, or delete the file.",
        example=_pair("# to be written", "schema: 1"),
        source=_COMMON,
    ),
    _entry(
        108,
        "top-level-not-mapping",
        "The file is no set of keys and values",
        what="A file whose outermost value is a list or a single text.",
        why="A record is found by its keys; a list has none.",
        fix='Start with "schema: 1" at the beginning of a line.',
        example=_pair("- schema: 1", "schema: 1"),
        source="chosen by this project",
    ),
    _entry(
        109,
        "several-documents",
        "A second document in one file",
        what="A line `---` below the record, which starts a second document.",
        why="Findings, links and page names are by file: the second record would be lost.",
        fix="Put each record in a file of its own, or delete the line.",
        example=_pair("id: first\n---\nid: second", "---\nid: first"),
        source=_YAML + "9.2 (streams); narrowed by this project",
    ),
    _entry(
        110,
        "directive-used",
        "A line that changes how the file is read",
        what="`%YAML` or `%TAG` at the head of the file.",
        why="Under `%YAML 1.1` the word `no` is a truth value; here it is always text.",
        fix="Delete the line and the `---` below it.",
        example=_pair("%YAML 1.1\n---\nhybrid: no", "hybrid: no"),
        source=_YAML + "6.8 (directives); narrowed by this project",
    ),
)

_INDIRECT = (
    _entry(
        111,
        "anchor-used",
        "A value marked for use elsewhere",
        what="An anchor, `&name`, before a value.",
        why="A reading must stand where it was made: a change for one pin would change another.",
        fix="Delete the anchor; put text that starts with & in quotes.",
        example=_pair("trim: &base hatch", "trim: hatch"),
        source=_YAML + "6.9.2 (node anchors); narrowed by this project",
    ),
    _entry(
        112,
        "alias-used",
        "A value taken from elsewhere",
        what="An alias, `*name`, in the place of a value.",
        why="Copies of copies can grow a small file to gigabytes, and one reading would count for "
        "several pins.",
        fix="Write the value out; put text that starts with * in quotes.",
        example=_pair("wire: *red", "wire: red"),
        source=_YAML + "7.1 (alias nodes); narrowed by this project",
    ),
    _entry(
        113,
        "tag-used",
        "A tag that changes what a value means",
        what="A tag such as `!!str`, `!!float` or `!name` before a value.",
        why="Tags make some readers of YAML run code, and show a number where text is read.",
        fix="Delete the tag; to make text of a number, put it in quotes.",
        example=_pair("cavity: !!str 4", 'cavity: "4"'),
        source=_YAML + "6.9.1 (node tags); narrowed by this project",
    ),
    _entry(
        114,
        "merge-key-used",
        "A key that copies other keys",
        what="The key `<<`.",
        why="It is no part of YAML 1.2, and which of two equal keys wins differs among readers.",
        fix="Write the keys out.",
        example=_pair("<<: {drive_side: left}\nid: a", "drive_side: left\nid: a"),
        source="YAML merge key draft (2005), dropped by YAML 1.2; from memory",
    ),
)

_KEYS = (
    _entry(
        115,
        "key-used-twice",
        "A key stands twice in one mapping",
        what="The same key twice in one mapping. The finding stands at the second one.",
        why="Most readers keep the last and drop the first without a word: a reading would vanish.",
        fix="Keep one of the two; if both are meant, make a list of them.",
        example=_pair("value_v: 12.1\nvalue_v: 12.6", "values_v: [12.1, 12.6]"),
        source=_YAML + "3.2.1.3 (keys of a mapping are unique)",
    ),
    _entry(
        116,
        "key-not-text",
        "A key that is no text",
        what="A key that is read as a number, true, false or null.",
        why='The number 4 and the text "4" are different keys: a look-up finds one of them only.',
        fix="Put the key in quotes.",
        example=_pair("4: red", '"4": red'),
        source="chosen by this project (JSON knows text keys only: RFC 8259, section 4)",
    ),
    _entry(
        117,
        "key-is-structure",
        "A list or mapping in the place of a key",
        what="A key that starts with [ or {, or stands behind a question mark and is no word.",
        why="No field of a record is named by a list.",
        fix="Write a plain word; put text that starts with a bracket in quotes.",
        example=_pair("[a, b]: red", '"[a, b]": red'),
        source="chosen by this project (JSON knows text keys only: RFC 8259, section 4)",
    ),
    _entry(
        118,
        "empty-key",
        "A key without a name",
        what="Nothing, or nothing but white space, before a colon.",
        why="A value without a name is read by nobody.",
        fix="Write the key's name, or delete the line.",
        example=_pair(": red", "colour: red"),
        source="chosen by this project",
    ),
)

_LIMITS = (
    _entry(
        119,
        "nested-too-deep",
        "Lists and mappings too deep in each other",
        what="More than 24 lists or mappings inside each other.",
        why="No record needs ten; a thousand brackets make a reader slow or end it.",
        fix="Close the brackets, or check the indentation.",
        example=_pair("a: " + "[" * 24 + "]" * 24, "a: [[[]]]"),
        source="chosen by this project",
    ),
    _entry(
        120,
        "number-not-finite",
        "A number that is not finite",
        what="`.inf`, `.nan`, and numbers too large to be held, such as 1e400.",
        why="Not-a-number passes every comparison with a limit unnoticed.",
        fix='Write what the meter showed; for an open circuit the word "open"; else "unknown".',
        example=_pair("ohm: .inf", "ohm: open"),
        source=_YAML + "10.3.2 (core schema); narrowed by this project",
    ),
    _entry(
        121,
        "number-loses-digits",
        "A number that would lose digits",
        what="Integers beyond 9,007,199,254,740,991 and fractions too small to differ from zero.",
        why="Such a number is a part number or a slip; as a number its last digits would change.",
        fix="Put part numbers in quotes.",
        example=_pair("part: 90071992547409931", 'part: "90071992547409931"'),
        source="RFC 8259, section 6 (integers beyond 2^53 − 1 are not interoperable)",
    ),
    _entry(
        122,
        "too-many-faults",
        "Reading stopped after fifty faults",
        what="Fifty faults were found in one file.",
        why="The rest would mostly be consequences of the first.",
        fix="Mend the first faults and run the check again.",
        example=_pair("a: [" + ", ".join(["*x"] * 50) + "]", "a: []"),
        source="chosen by this project",
    ),
)

CATALOGUE: tuple[CatalogueEntry, ...] = (*_FILE, *_SHAPE, *_INDIRECT, *_KEYS, *_LIMITS)
"""Every id the loader can report, in order."""

SLUGS: dict[str, str] = {entry.id: entry.slug for entry in CATALOGUE}
