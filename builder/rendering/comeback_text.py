"""What a car came back with, as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.planning.comeback.condition import Fault


def causes_text(line: str, faults: Sequence[Fault]) -> str:
    """Each cause of a line that failed, the likeliest first, with its place and what to do."""
    if not faults:
        return f"{line}: nothing of this circuit makes it fail by itself\n"
    said = f"{line}: any one of these makes it fail, the likeliest first"
    return "\n".join((said, *_causes(faults))) + "\n"


def _causes(faults: Sequence[Fault]) -> Iterator[str]:
    by_remedy: dict[str, list[Fault]] = {}
    for fault in faults:
        by_remedy.setdefault(fault.remedy, []).append(fault)
    for at, (remedy, mine) in enumerate(by_remedy.items(), 1):
        yield f"{at}. {remedy}"
        yield from (f"     {fault.place}: {fault.what}" for fault in mine)
