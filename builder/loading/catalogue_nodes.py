"""Findings about what stands in a file: indirection, keys and limits."""

from __future__ import annotations

from builder.findings import refused_and_accepted
from builder.loading.catalogue_entries import YAML_SECTION, entry

_INDIRECT = (
    entry(
        111,
        "anchor-used",
        "A value marked for use elsewhere",
        what="An anchor, `&name`, before a value.",
        why="A reading must stand where it was made: a change for one pin would change another.",
        fix="Delete the anchor; put text that starts with & in quotes.",
        example=refused_and_accepted("trim: &base hatch", "trim: hatch"),
        source=YAML_SECTION + "6.9.2 (node anchors); narrowed by this project",
    ),
    entry(
        112,
        "alias-used",
        "A value taken from elsewhere",
        what="An alias, `*name`, in the place of a value.",
        why="Copies of copies can grow a small file to gigabytes, and one reading would count for "
        "several pins.",
        fix="Write the value out; put text that starts with * in quotes.",
        example=refused_and_accepted("wire: *red", "wire: red"),
        source=YAML_SECTION + "7.1 (alias nodes); narrowed by this project",
    ),
    entry(
        113,
        "tag-used",
        "A tag that changes what a value means",
        what="A tag such as `!!str`, `!!float` or `!name` before a value.",
        why="Tags make some readers of YAML run code, and show a number where text is read.",
        fix="Delete the tag; to make text of a number, put it in quotes.",
        example=refused_and_accepted("cavity: !!str 4", 'cavity: "4"'),
        source=YAML_SECTION + "6.9.1 (node tags); narrowed by this project",
    ),
    entry(
        114,
        "merge-key-used",
        "A key that copies other keys",
        what="The key `<<`.",
        why="It is no part of YAML 1.2, and which of two equal keys wins differs among readers.",
        fix="Write the keys out.",
        example=refused_and_accepted("<<: {drive_side: left}\nid: a", "drive_side: left\nid: a"),
        source="YAML merge key draft (2005), dropped by YAML 1.2; from memory",
    ),
)

_KEYS = (
    entry(
        115,
        "key-used-twice",
        "A key stands twice in one mapping",
        what="The same key twice in one mapping. The finding stands at the second one.",
        why="Most readers keep the last and drop the first without a word: a reading would vanish.",
        fix="Keep one of the two; if both are meant, make a list of them.",
        example=refused_and_accepted("value_v: 12.1\nvalue_v: 12.6", "values_v: [12.1, 12.6]"),
        source=YAML_SECTION + "3.2.1.3 (keys of a mapping are unique)",
    ),
    entry(
        116,
        "key-not-text",
        "A key that is no text",
        what="A key that is read as a number, true, false or null.",
        why='The number 4 and the text "4" are different keys: a look-up finds one of them only.',
        fix="Put the key in quotes.",
        example=refused_and_accepted("4: red", '"4": red'),
        source="chosen by this project (JSON knows text keys only: RFC 8259, section 4)",
    ),
    entry(
        117,
        "key-is-structure",
        "A list or mapping in the place of a key",
        what="A key that starts with [ or {, or stands behind a question mark and is no word.",
        why="No field of a record is named by a list.",
        fix="Write a plain word; put text that starts with a bracket in quotes.",
        example=refused_and_accepted("[a, b]: red", '"[a, b]": red'),
        source="chosen by this project (JSON knows text keys only: RFC 8259, section 4)",
    ),
    entry(
        118,
        "empty-key",
        "A key without a name",
        what="Nothing, or nothing but white space, before a colon.",
        why="A value without a name is read by nobody.",
        fix="Write the key's name, or delete the line.",
        example=refused_and_accepted(": red", "colour: red"),
    ),
)

_LIMITS = (
    entry(
        119,
        "nested-too-deep",
        "Lists and mappings too deep in each other",
        what="More than 24 lists or mappings inside each other.",
        why="No record needs ten; a thousand brackets make a reader slow or end it.",
        fix="Close the brackets, or check the indentation.",
        example=refused_and_accepted("a: " + "[" * 24 + "]" * 24, "a: [[[]]]"),
    ),
    entry(
        120,
        "number-not-finite",
        "A number that is not finite",
        what="`.inf`, `.nan`, and numbers too large to be held, such as 1e400.",
        why="Not-a-number passes every comparison with a limit unnoticed.",
        fix='Write what the meter showed; for an open circuit the word "open"; else "unknown".',
        example=refused_and_accepted("ohm: .inf", "ohm: open"),
        source=YAML_SECTION + "10.3.2 (core schema); narrowed by this project",
    ),
    entry(
        121,
        "number-loses-digits",
        "A number that would lose digits",
        what="Integers beyond 9,007,199,254,740,991, and fractions that are not 0 and nearer to it "
        "than a millionth of a millionth.",
        why="Such a number is a part number or a slip; as a number its last digits would change, "
        "and what is divided by next to nothing has no end.",
        fix="Put part numbers in quotes; type 0 for what was nothing.",
        example=refused_and_accepted("part: 90071992547409931", 'part: "90071992547409931"'),
        source="RFC 8259, section 6 (integers beyond 2^53 − 1 are not interoperable)",
    ),
    entry(
        122,
        "too-many-faults",
        "Reading stopped after fifty faults",
        what="Fifty faults were found in one file.",
        why="The rest would mostly be consequences of the first.",
        fix="Mend the first faults and run the check again.",
        example=refused_and_accepted("a: [" + ", ".join(["*x"] * 50) + "]", "a: []"),
    ),
    entry(
        123,
        "links-outside",
        "A record that is a link out of its book",
        what="A record file that is a symbolic link, or stands in a linked folder, to a file that "
        "is under none of the book's roots.",
        why="Such a link can name any file of the machine that builds the site, and a finding "
        "about that file would print what is in it.",
        fix="Put the record itself into the book, or name its folder under `roots`.",
        example="`vehicles/example/car.yaml` is a link to `/etc/passwd`.",
    ),
    entry(
        124,
        "private-by-another-name",
        "A shared record that is a private file too",
        what="A record file in a shared folder that is, as a hard link, the same file as one in a "
        "private folder.",
        why="It would be published with the shared records, and every private note typed into it "
        "later.",
        fix="Delete the shared name, or copy the record there so that it is a file of its own.",
        example="`ln private/vehicles/ours.yaml shared/vehicles/ours.yaml`",
    ),
)

NODE_ENTRIES = (*_INDIRECT, *_KEYS, *_LIMITS)
