"""The command group and what its commands share."""

from __future__ import annotations

import click

from builder import __version__
from builder.cli.late_commands import LateCommands
from builder.cli.sentences import SentenceGroup

_PLACES = {
    "begin": "beginning:begin",
    "books": "borrowing:books",
    "build": "building:build",
    "check": "checking:check",
    "comeback": "comeback:comeback",
    "completion": "completing:completion",
    "diff": "comparing:diff",
    "evidence": "evidence:evidence",
    "find": "answering:find",
    "identify": "identifying:identify",
    "import": "importing:import_file",
    "mend": "mending:mend",
    "merge": "merging:merge",
    "new": "creating:new",
    "next": "measuring_next:measure_next_command",
    "plan": "answering:plan",
    "serve": "serving:serve",
    "show": "answering:show",
    "sign": "signing:sign",
    "sound": "sound:sound",
    "start": "starting:start",
    "tidy": "mending:tidy",
    "visit": "visiting:visit",
    "which": "which_car:which",
    "why": "why:why",
}
"""Where in this package each command is, to be loaded when it is asked for."""


@click.group(
    cls=SentenceGroup,
    commands=LateCommands({name: f"builder.cli.faces.{at}" for name, at in _PLACES.items()}),
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="loombook", message="%(prog)s %(version)s")
def main() -> None:
    """A book of proved radio-connector pins, and the tap plans they make possible.

    \b
    Ask the book      loombook find "quern 2018 switched"
                      loombook show wexlow-quern-2016-early
    Make a plan       loombook plan ostrel-tansy-2017-hatch-base --converter cvn-2a
    Before a job      loombook plan cindral-teasel-2023 --converter cvn-2a --amplifier amn-600
    Plan a whole job  loombook plan tansy-subwoofer
    Which record?     loombook which wexlow quern 2018
    Name a wire       loombook identify
    Begin a record    loombook new vehicle
    From a table      loombook import car.xlsx
    Check records     loombook check
    Mend what is sure loombook mend
    Two of one car    loombook merge A B
    Work begins       loombook begin tansy-subwoofer --by alder-pit-audio
    A sheet is back   loombook evidence add bay-sheet.yaml
    Sign a visit      loombook sign ostrel-tansy-2017-hatch-base s1 --key KEY
    Take one back     loombook visit withdraw VISIT --because WHY
    What to measure   loombook next
    A car is back     loombook comeback tansy-subwoofer
    Measure its sound loombook sound track test.wav
    Build the site    loombook build --output site
    A book of my own  loombook start ../our-book
    Books of others   loombook books add ../coast
    Why so planned?   loombook why tansy-subwoofer
    What changed?     loombook diff --git HEAD~1
    Why refused?      loombook why PIN101
    Why this grade?   loombook why ostrel-tansy-2017-hatch-base A.7

    Every command looks for the book in this folder, then in ./pinouts, or in the folder you name.

    Exit codes: 0 clean, 1 findings or refused, 2 wrong use, 3 written with something to mend,
    130 stopped by Ctrl-C.
    """
