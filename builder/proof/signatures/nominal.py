"""What a known speaker narrows: the ohms of its pair, as a meter at the radio reads them."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from builder.model.house_defaults import HouseDefaults
from builder.model.sound import SpeakerChannel
from builder.model.words import InLine
from builder.proof.band import Band
from builder.proof.signatures.shapes import Expected, Kind, Nominal, by_cell

_WIDE = ("speaker_min_ohm", "speaker_max_ohm")
"""The defaults that set the ohms of a pair whose speaker nobody knows."""
_BESIDE_IT: frozenset[InLine] = frozenset({"second_speaker", "headrest_speaker"})
NARROWED = ("speaker_dc_min_share", "speaker_dc_max_share", "speaker_leads_ohm")
"""The defaults that set the ohms of a pair whose speaker is known."""


def nominal_of(channel: SpeakerChannel | None) -> Nominal | None:
    """What is known of the speaker on a pair; None where a filter or nothing known hides it."""
    if channel is None or channel.speaker_ohm is None or "filter" in channel.in_line:
        return None
    return Nominal(channel.speaker_ohm, not _BESIDE_IT.isdisjoint(channel.in_line))


def pair_band(nominal: Nominal, defaults: HouseDefaults) -> Band:
    """The ohms of a healthy pair at the radio: 0.7·R to R + 0.8 Ω with the usual defaults.

    A second speaker on the same pair may stand beside it without a capacitor: half as much is no
    fault then.

    Source: common practice, no source; both figures are house defaults.
    """
    return band_through(nominal, defaults.speaker_leads_ohm, defaults)


def job_pair_band(
    channel: SpeakerChannel | None, stated_ohm: float, defaults: HouseDefaults
) -> Band:
    """The ohms of a pair of the car in a job, which says `stated_ohm` where the record is silent.

    Behind a filter any healthy pair's ohms pass, as they do at the radio.
    """
    if channel is not None and "filter" in channel.in_line:
        return Band((0.0, defaults.speaker_min_ohm), (0.0, defaults.speaker_max_ohm))
    return pair_band(nominal_of(channel) or Nominal(stated_ohm, shared=False), defaults)


def band_through(nominal: Nominal, wires_ohm: float, defaults: HouseDefaults) -> Band:
    """The ohms of a healthy speaker through wires that are known better than a factory pair's.

    `wires_ohm` is both wires together, one after the other [Ω].

    >>> band_through(Nominal(4.0, shared=False), 0.25, HouseDefaults())
    Band(low=(0.0, 2.8), high=(0.0, 4.25))
    """
    least = nominal.ohm / 2 if nominal.shared else nominal.ohm
    low = defaults.speaker_dc_min_share * least
    return Band((0.0, low), (0.0, nominal.ohm * defaults.speaker_dc_max_share + wires_ohm))


@lru_cache(maxsize=256)
def narrowed(kind: Kind, nominal: Nominal, defaults: HouseDefaults) -> Kind:
    """Return a kind with the ohms of its pair narrowed to what its speaker reads.

    What lies outside them and would be in order for some other speaker proves nothing and
    contradicts nothing: the recorded ohms may be those that are wrong.
    """
    rows = tuple(_narrowed(row, nominal, defaults) for row in kind.rows)
    return replace(kind, rows=rows, cells=by_cell(rows), nominal=nominal)


def _narrowed(row: Expected, nominal: Nominal, defaults: HouseDefaults) -> Expected:
    if row.house != _WIDE:
        return row
    low, high = pair_band(nominal, defaults)
    note = f"{nominal.ohm:g} Ω nominal, leads included"
    return replace(row, low=low, high=high, tolerated=row.band, note=note, house=NARROWED)
