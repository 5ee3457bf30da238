"""Lines of the bay sheet about a passive crossover: read through it while dead, heard behind it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from builder.figures import shown
from builder.model.job import Crossover, JobSpeaker
from builder.model.names import crossover_name
from builder.model.words import Channel
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure, tick
from builder.planning.bay.work import BayWork
from builder.planning.car.pairs import Pair
from builder.planning.car.treatments import is_crossed, wires_of
from builder.planning.circuit.crossover_links import (
    CrossoverBand,
    band_of,
    lead_to,
    output_of,
)
from builder.planning.circuit.model import end_of
from builder.planning.circuit.terminal_names import SIGNS, channel_of
from builder.planning.work_pack import BayTest
from builder.proof.signatures.nominal import job_pair_band
from builder.units import Hertz

COIL_OHM = 0.6
"""What the coils of a low-pass have by themselves, at most. Common practice, no source. [Ω]"""
BELOW_CORNER = 8
"""How far below the corner the two bands are told apart by ear: at 6 dB an octave the tweeter is
18 dB below the woofer there. Common practice, no source."""
BANDS = "bands"
"""What ends the id of the line that hears them."""


class Crossed(NamedTuple):
    """A crossover of the job and the pairs of the car behind it, by band."""

    speaker: JobSpeaker
    made: Crossover
    pairs: dict[CrossoverBand, Pair]

    @property
    def name(self) -> str:
        """What it is called."""
        return crossover_name(self.speaker.channel)


def crossed(work: BayWork) -> Iterator[Crossed]:
    """Yield each crossover that stands before two pairs of the car."""
    broken = {tap.pair.channel: tap.pair for tap in work.selection.broken}
    for speaker in work.parts.job.speakers:
        names = wires_of(speaker, broken)
        if speaker.crossover is not None and is_crossed(speaker, names):
            pairs = {band_of(name): broken[name] for name in names}
            yield Crossed(speaker, speaker.crossover, pairs)


def driven_at(speaker: JobSpeaker, channel: Channel, pairs: Mapping[Channel, object]) -> str:
    """Return what drives a pair of the car: an amplifier's channel, or a crossover's output."""
    if is_crossed(speaker, wires_of(speaker, pairs)):
        return output_of(crossover_name(speaker.channel), band_of(channel))
    return channel_of(speaker.amplifier, speaker.channel_name)


def through_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield what is read through each crossover, its lead not in the amplifier yet."""
    for each in crossed(work):
        woofer = each.pairs["woofer"]
        band = job_pair_band(woofer.carries, each.made.woofer_ohm, work.defaults)
        assert band.low is not None and band.high is not None
        ends = tuple(end_of(f"{lead_to(each.name)} {sign}", "from") for sign in SIGNS)
        yield measure(
            speakable(each.name, "ohms"), "legs",
            f"{lead_to(each.name)}, amplifier end open: ohms, test leads' ohms taken off",
            "battery_off", "ohm", band.low[1], band.high[1] + COIL_OHM,
            "the woofer through the low-pass; the tweeter is behind its capacitor and reads open, "
            "so other ohms are the two changed over, or a crossover wired otherwise",
            ends, WITH_THE_CIRCUIT,
        )  # fmt: skip


def tone_hz(made: Crossover) -> Hertz:
    """Return the tone that a woofer plays and a tweeter behind a crossover does not. [Hz]"""
    return made.corner_hz / BELOW_CORNER


def band_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield how each crossover is heard to part its bands, before anything is loud."""
    for each in crossed(work):
        yield tick(
            speakable(each.name, BANDS), "again",
            f"{each.name}: tone of {shown(tone_hz(each.made))} Hz, quiet, an ear at each: the "
            "woofer plays it, the tweeter next to nothing",
            "radio_on_tone", "changed over, the tweeter gets the bass and burns at the first loud "
            "song", (), WITH_THE_CIRCUIT,
        )  # fmt: skip
