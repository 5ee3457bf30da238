"""A speaker pair has the wrong resistance.

What it catches
---------------
Ohms across a speaker pair, plug out: under 1 Ω (a stop), open where no capacitor is stated,
or outside what the stated nominal reads at the radio (warnings): 0.7 times it to 0.8 Ω above it,
wire and test leads included **(house defaults)**. A second speaker stated on the pair may halve it.

Why it matters in the bay
-------------------------
Half the expected figure is two speakers in parallel, and the new amplifier sees 2 Ω. Nearly
nothing is a short that ends the output stage. Open is a broken voice coil or a capacitor.

Example
-------
Fails::

    # channels: [{channel: front-left, speaker_ohm: 4}]
    - cavity: 3
      function: speaker
      channel: front-left
      leg: positive
      readings: [{session: s1, state: unplugged, against: 4, quantity: ohm, value: 1.7}]

Passes::

    # channels: [{channel: front-left, speaker_ohm: 4}]
    - cavity: 3
      function: speaker
      channel: front-left
      leg: positive
      readings: [{session: s1, state: unplugged, against: 4, quantity: ohm, value: 3.3}]

How to mend it
--------------
Take the test leads' ohms off and read again. Then correct `speaker_ohm`, or state under
`in_line` what else hangs on the pair: series_capacitor, second_speaker.

Source
------
A voice coil's DC resistance is 0.7 to 1.0 of the nominal impedance: common practice, no
source; IEC 60268-5 asks that the impedance stay above 0.8 of the nominal (memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Reading
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.proof.band import limit_at, where_in
from builder.proof.pin_readings import exceeds
from builder.proof.signatures.nominal import NARROWED, nominal_of, pair_band
from builder.proof.signatures.shapes import Nominal
from builder.rules.house import prints
from builder.rules.pair_readings import is_mate
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site, wiring_of
from builder.rules.wording import called, ohms

_NOMINALS = (2.0, 3.0, 4.0, 6.0, 8.0)


@prints("speaker_min_ohm", *NARROWED)
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield readings across a pair that no sound speaker of that size gives."""
    wiring = wiring_of(vehicle)
    for site, reading in wiring.ohms:
        if site.pin.function == "speaker" and is_mate(site, reading, wiring):
            channel = wiring.carried(site)
            yield from _judge(site, reading, channel, shelf.defaults)


def _judge(
    site: Site, reading: Reading, channel: SpeakerChannel | None, defaults: HouseDefaults
) -> Iterator[Fault]:
    value_ohm = reading.value
    if value_ohm is None:
        if not _behind_capacitor(channel):
            yield _fault(site, reading, "a coil that conducts", Severity.WARN)
    elif exceeds(defaults.speaker_min_ohm, value_ohm):
        least = defaults.speaker_min_ohm
        yield _fault(site, reading, f"at least {ohms(least)}", Severity.STOP, beside=(least,))
    elif nominal := nominal_of(channel):
        band = pair_band(nominal, defaults)
        if where_in(band, value_ohm, None) != "in":
            ends = tuple(limit_at(end, 0.0) for end in band if end is not None)
            words = f"{shown(ends[0])} to {ohms(ends[-1])}"
            yield _fault(site, reading, words, Severity.WARN, defaults, ends)


def _behind_capacitor(channel: SpeakerChannel | None) -> bool:
    return channel is not None and (channel.band == "high" or "series_capacitor" in channel.in_line)


def _fault(
    site: Site,
    reading: Reading,
    expected: str,
    severity: Severity,
    defaults: HouseDefaults | None = None,
    beside: tuple[float, ...] = (),
) -> Fault:
    fits = _fitting(reading.value, defaults) if defaults else ""
    return Fault(
        (*reading.path, "value"),
        f"{called(site)} reads {ohms(reading.value, *beside)} to its mate (expected: {expected}): "
        f"a short, a second speaker, a capacitor or a broken coil{fits}",
        "take the leads' ohms off and read again; correct speaker_ohm, or say under in_line "
        "what hangs on the pair",
        severity,
    )


def _fitting(value_ohm: float | None, defaults: HouseDefaults) -> str:
    fits = [
        f"{ohm:g}"
        for ohm in _NOMINALS
        if value_ohm is not None
        and where_in(pair_band(Nominal(ohm, False), defaults), value_ohm, None) == "in"
    ]
    return f"; it would fit a nominal of {' or '.join(fits)} Ω" if fits else ""


RULE = rule("MET112", Severity.WARN, Scope.VEHICLE, check, hazard=True)
