"""Where in a job a piece of its circuit stands."""

from __future__ import annotations

from builder.findings import DataPath
from builder.planning.work_pack import JobParts


def place_in_job(parts: JobParts, piece: str) -> DataPath:
    """Return the path of what a terminal or a conductor belongs to; the routes for any other."""
    for amplifier in parts.job.amplifiers:
        if piece.startswith(f"{amplifier.name} "):
            return amplifier.path
    for speaker in parts.job.speakers:
        if piece.startswith((f"{speaker.name} ", f"lead to {speaker.name}")):
            return speaker.path
    if piece.startswith(f"{parts.converter.name} "):
        return ("converter",)
    if piece.startswith(("supply ", "branch ", "ground ", "lead to the main fuse")):
        return parts.job.supply.path
    return ("routes",)
