"""How the name of a file is printed, whatever was put into it."""

from __future__ import annotations


def visible_name(name: str) -> str:
    """A file's name as one line of visible characters, whatever was put into it.

    A line end, an escape that colours a terminal, a mark that turns text round, or a byte that is
    no letter is shown as Python writes it, such as `\\n` or `\\u202e`; a backslash is doubled, so
    that two names never look alike for that.
    """
    if name.isprintable() and "\\" not in name:
        return name
    return "".join(
        c if c.isprintable() and c != "\\" else c.encode("unicode_escape").decode("ascii")
        for c in name
    )
