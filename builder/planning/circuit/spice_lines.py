"""Lines of a netlist: parts with their nodes and values, and comments that cannot be anything else.

What people typed stands in comments only, never in a line that a simulator carries out.
"""

from __future__ import annotations

from dataclasses import dataclass

GROUND = "0"
"""The node that every simulator takes as reference: the battery's negative post."""


@dataclass(frozen=True, slots=True)
class DeckLine:
    """One part of the netlist. `said` are comments before it; the first letter says what it is."""

    name: str  # "Rw3"
    nodes: tuple[str, ...]
    value: str
    said: tuple[str, ...] = ()

    @property
    def conducts(self) -> bool:
        """Whether direct current passes it, so that both its nodes are tied to each other."""
        return self.name[0] in "RVBX"

    @property
    def text(self) -> str:
        """The line with its comments before it."""
        line = f"{self.name} {' '.join(self.nodes)} {self.value}"
        return "\n".join((*map(comment, self.said), line))


def comment(text: str) -> str:
    """Return a comment of one line, whatever the text holds; spaces before it stay.

    >>> comment("left\\ndoor")
    '* left door'
    """
    indent = len(text) - len(text.lstrip(" "))
    return f"* {' ' * indent}{' '.join(text.split())}"


def figure(value: float) -> str:
    """Return a number as a simulator reads it, without a multiplier letter.

    >>> figure(0.0033)
    '0.0033'
    """
    return f"{value:.9g}"


def heading(text: str) -> str:
    """Return the comment that begins a section."""
    return f"*\n{comment(f'-- {text} ' + '-' * (70 - len(text)))}"


def volts(plus: str, minus: str) -> str:
    """Return the volts between two nodes as a formula of a run.

    >>> volts("n3", "0")
    'v(n3)'
    """
    seen = [f"v({node})" if node != GROUND else "0" for node in (plus, minus)]
    return seen[0] if minus == GROUND else "-".join(seen)
