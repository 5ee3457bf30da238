"""The day on which something is done, as it is said to a command that writes it down."""

from __future__ import annotations

from datetime import date, datetime

import click


def day_said(day: datetime | None) -> str:
    """Return the day as records have it, YYYY-MM-DD; today where none was said.

    Raises:
        click.BadParameter: it is still to come.
    """
    said = date.today() if day is None else day.date()
    if said > date.today():
        raise click.BadParameter(f"{said} is still to come: type the day on which it was done")
    return said.isoformat()
