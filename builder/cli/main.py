"""The command group and what its commands share."""

from __future__ import annotations

import click

from builder import __version__
from builder.cli.answering import find, plan, show
from builder.cli.building import build
from builder.cli.checking import check
from builder.cli.comparing import diff
from builder.cli.completing import completion
from builder.cli.creating import new
from builder.cli.evidence import evidence
from builder.cli.explaining import explain, rule
from builder.cli.fixing import fix, format_records
from builder.cli.identifying import identify
from builder.cli.importing import import_file
from builder.cli.sentences import SentenceGroup
from builder.cli.serving import serve
from builder.cli.starting import start
from builder.cli.telling import which
from builder.cli.wanting import wanted


@click.group(
    cls=SentenceGroup,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="loombook", message="%(prog)s %(version)s")
def main() -> None:
    """A book of proved radio-connector pins, and the tap plans they make possible.

    \b
    Ask the book      loombook find "alta 2018 switched"
                      loombook show corvane-alta-2016-early
    Make a plan       loombook plan ostrel-kavo-2017-hatch-base --converter cv-2a
    Before a job      loombook plan cindral-ember-2023 --converter cv-2a --amplifier am-600
    Plan a whole job  loombook plan kavo-subwoofer
    Which record?     loombook which corvane alta 2018
    Name a wire       loombook identify
    Begin a record    loombook new vehicle
    From a table      loombook import car.xlsx
    Check records     loombook check
    Mend what is sure loombook fix
    A sheet is back   loombook evidence add bay-sheet.yaml
    What to measure   loombook wanted
    Build the site    loombook build --output site
    A book of my own  loombook start ../our-book
    Why refused?      loombook rule PIN101
    What changed?     loombook diff --git HEAD~1
    Why this grade?   loombook explain ostrel-kavo-2017-hatch-base A.7

    Every command looks for the book in this folder, then in ./pinouts, or in the folder you name.

    Exit codes: 0 clean, 1 findings, 2 wrong use.
    """


for command in (
    check,
    build,
    serve,
    find,
    show,
    plan,
    which,
    start,
    rule,
    explain,
    diff,
    identify,
    completion,
    new,
    import_file,
    fix,
    format_records,
    evidence,
    wanted,
):
    main.add_command(command)
