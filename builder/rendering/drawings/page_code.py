"""The code on paper that leads a phone back to the page: a QR code drawn as one path."""

from __future__ import annotations

from itertools import groupby

from markupsafe import Markup, escape

QUIET = 4
"""Clear modules round the code. ISO/IEC 18004 asks for four."""


def page_code(address: str) -> Markup:
    """Return `address` as a QR code, one view-box unit a module, with its quiet zone.

    Error correction is of level M (about 15 % of it may be smeared). Raises ValueError for an
    address that no code holds, which begins above 2,300 letters.
    """
    import segno  # only sites that have an address pay for loading it

    rows = segno.make_qr(address, error="m").matrix
    size = len(rows) + 2 * QUIET
    d = "".join(_runs(row, at + QUIET) for at, row in enumerate(rows))
    return Markup(  # the address is escaped, the path is numbers only
        f'<svg class="lb-code" width="{size}" height="{size}" viewBox="0 0 {size} {size}"'
        f' role="img"><title>code that leads to {escape(address)}</title>'
        f'<path d="M0 0h{size}v{size}h-{size}z" fill="#fff"/><path d="{d}" fill="#000"/></svg>'
    )


def _runs(row: bytes | bytearray, y: int) -> str:
    """Return the dark modules of a row as boxes one module high, neighbours joined."""
    drawn, x = [], QUIET
    for dark, run in groupby(bool(module) for module in row):
        length = sum(1 for _ in run)
        if dark:
            drawn.append(f"M{x} {y}h{length}v1h-{length}z")
        x += length
    return "".join(drawn)
