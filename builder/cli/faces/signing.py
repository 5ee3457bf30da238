"""What can be asked of `sign`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option
from builder.cli.known_ids import completing


@click.command()
@click.argument("vehicle", shell_complete=completing("vehicle"))
@click.argument("visits", nargs=-1, required=True, metavar="VISIT...")
@click.option(
    "--key",
    required=True,
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    metavar="FILE",
    help="Your OpenSSH key: the private one, or the public one of a key that an agent holds.",
)
@book_option
def sign(vehicle: str, visits: tuple[str, ...], key: Path, book: Path | None) -> None:
    """Sign visits of a vehicle with your own key.

    ssh-keygen makes the signature, over who, when, which car and each reading; it stands in a file
    beside the record, and `loombook check --signatures` verifies it. Your public key has to be in
    your record in contributors.

    \b
    loombook sign ostrel-tansy-2017-hatch-base s1 --key ~/.ssh/id_ed25519
    """
    from builder.cli import signing

    signing.sign(vehicle, visits, key, book)
