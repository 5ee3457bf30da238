"""Places of a danger as a record lists them: those that are named, and whether they are all."""

from __future__ import annotations

from builder.model.words import UNKNOWN


def known(zones: tuple[str, ...]) -> tuple[str, ...]:
    """Return the zones that are named.

    >>> known(("floor tunnel", "unknown"))
    ('floor tunnel',)
    """
    return tuple(zone for zone in zones if zone.lower() != UNKNOWN)


def all_known(zones: tuple[str, ...]) -> bool:
    """Whether somebody looked everywhere: no further place can be such a zone.

    >>> all_known(()), all_known(("unknown",)), all_known(("floor tunnel", "unknown"))
    (True, False, False)
    """
    return known(zones) == zones
