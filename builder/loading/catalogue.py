"""The explanation of every refusal of the loader, as data: the site makes pages of it.

In `example` the first fenced block is refused and the second is accepted, where a block of
plain text can show the fault at all.
"""

from __future__ import annotations

from builder.findings import CatalogueEntry, refused_and_accepted
from builder.loading.catalogue_entries import COMMON, YAML_SECTION, entry
from builder.loading.catalogue_nodes import NODE_ENTRIES

_FILE = (
    entry(
        101,
        "not-utf8",
        "The file is not UTF-8 text",
        what="Bytes that are no UTF-8: a file saved in an older encoding, or in UTF-16. "
        "A UTF-8 byte order mark at the start is accepted.",
        why="Degree signs, ohm signs and names would turn into others on another machine.",
        fix='In the editor choose "save with encoding", then UTF-8.',
        example="`note: warmed to 40 °C` saved as Latin-1 holds the byte 0xB0.",
        source=YAML_SECTION + "5.2 (character encodings); narrowed to UTF-8 by this project",
    ),
    entry(
        102,
        "file-too-large",
        "The file is larger than a record can be",
        what="A file of more than 1 MiB (1,048,576 bytes).",
        why="A full record of a vehicle has about ten thousand bytes. A file a hundred times as "
        "large is a picture, a paste or an attack, and would slow the check of all the others.",
        fix="Describe one scope or one part in each file; refer to photos by name.",
        example="A record with a photo pasted into a note as a million letters.",
    ),
    entry(
        103,
        "file-unreadable",
        "The file cannot be read",
        what="A file that is missing, is a folder or a device, or may not be read by you.",
        why="A record nobody can read must not pass as one without faults.",
        fix="Check the name and the file's permissions.",
        example="`pinouts/vehicles/example/radio.yaml` is a folder.",
        source=COMMON,
    ),
    entry(
        104,
        "hidden-character",
        "A character nobody can see",
        what="Control characters, zero-width characters, direction marks and overrides, line "
        "separators and byte order marks inside the text, comments included, and the same "
        "written as an escape in a double-quoted text.",
        why="Two keys or cavities that look alike would be different, and text can be shown in "
        "another order than it is read: a reviewer would approve what is not there.",
        fix="Delete the character; retype the words around it instead of pasting them.",
        example=refused_and_accepted('note: "pin 4\\u202E5 nip"', 'note: "pin 4"'),
        source="Unicode Technical Report 36, section 2 (visual spoofing); from memory",
    ),
)

_SHAPE = (
    entry(
        105,
        "not-yaml",
        "The file cannot be read as YAML",
        what="A quote or bracket that is not closed, a line that is neither `key: value` nor a "
        "list item, a key out of line with its neighbours. Reading ends at the place named.",
        why="Everything behind the place could mean something else than it seems to.",
        fix="Compare the line with TEMPLATE.yaml; put text that holds a colon in quotes.",
        example=refused_and_accepted("note: measured: twice", 'note: "measured: twice"'),
        source="YAML 1.2.2",
    ),
    entry(
        106,
        "tab-for-spaces",
        "A tab where YAML wants spaces",
        what="A tab in the white space at the start of a line.",
        why="A tab is as wide as each editor likes, so that nobody sees what belongs to what.",
        fix='Replace it by spaces, two for each level. Most editors do so by "indent with spaces".',
        example=refused_and_accepted("scope:\n\tdrive_side: left", "scope:\n  drive_side: left"),
        source=YAML_SECTION + "6.1 (indentation spaces)",
    ),
    entry(
        107,
        "empty-file",
        "The file holds no record",
        what="A file of nothing but comments and white space.",
        why="An unfinished file would look like a vehicle about which nothing can be wrong.",
        fix="Copy the TEMPLATE.yaml of the kind and fill it in, or delete the file. The settings "
        "of a book need the line `schema: 1` and no other.",
        example=refused_and_accepted("# to be written", "schema: 1"),
        source=COMMON,
    ),
    entry(
        108,
        "top-level-not-mapping",
        "The file is no set of keys and values",
        what="A file whose outermost value is a list or a single text.",
        why="A record is found by its keys; a list has none.",
        fix='Start with "schema: 1" at the beginning of a line.',
        example=refused_and_accepted("- schema: 1", "schema: 1"),
    ),
    entry(
        109,
        "several-documents",
        "A second document in one file",
        what="A line `---` below the record, which starts a second document.",
        why="Findings, links and page names are by file: the second record would be lost.",
        fix="Put each record in a file of its own, or delete the line.",
        example=refused_and_accepted("id: first\n---\nid: second", "---\nid: first"),
        source=YAML_SECTION + "9.2 (streams); narrowed by this project",
    ),
    entry(
        110,
        "directive-used",
        "A line that changes how the file is read",
        what="`%YAML` or `%TAG` at the head of the file.",
        why="Under `%YAML 1.1` the word `no` is a truth value; here it is always text.",
        fix="Delete the line and the `---` below it.",
        example=refused_and_accepted("%YAML 1.1\n---\nhybrid: no", "hybrid: no"),
        source=YAML_SECTION + "6.8 (directives); narrowed by this project",
    ),
)

CATALOGUE: tuple[CatalogueEntry, ...] = (*_FILE, *_SHAPE, *NODE_ENTRIES)
"""Every id the loader can report, in order."""

SLUGS: dict[str, str] = {entry.id: entry.slug for entry in CATALOGUE}
