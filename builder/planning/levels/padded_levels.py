"""Sources that leave too little room at their input, brought down by a resistor in each leg."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.model.words import Channel
from builder.planning.car.output_sums import corner_of
from builder.planning.car.selection import Selection, Tap
from builder.planning.levels.level_pad import (
    ohm_words,
    pad_heat_w,
    pad_resistor_ohm,
    padded_margin_db,
)
from builder.planning.levels.signal_levels import level_verdict
from builder.planning.plan import LevelCheck
from builder.units import Ohms

Checked = tuple[Tap, LevelCheck]


def pad_levels(
    checked: Sequence[Checked], selection: Selection, converter: Converter, defaults: HouseDefaults
) -> list[Checked]:
    """Return the checks behind the pads that the selection asks for.

    `auto` gives a pad to every pair with less room than the house wants, and the same one to the
    pairs that are heard together with it: left and right of an end, bands of a corner, whatever
    one line output adds up. Otherwise balance or bands would shift by what the pad takes.

    An input whose negative terminal is ground gets none: a resistor in its ground leg would
    lift it.
    """
    if selection.pad == "none" or not takes_pad(converter):
        return list(checked)
    together = _heard_together(checked, selection)
    needed = {
        tap.pair.channel: _ohm(check, selection, converter, defaults) for tap, check in checked
    }
    return [
        (tap, _behind(check, max(needed[name] for name in together[tap.pair.channel]), converter,
                      defaults))
        for tap, check in checked
    ]  # fmt: skip


def takes_pad(converter: Converter) -> bool:
    """Whether a resistor may stand in each leg of its inputs."""
    return converter.input.type != "ground_referenced"


def _ohm(
    check: LevelCheck, selection: Selection, converter: Converter, defaults: HouseDefaults
) -> Ohms:
    if selection.pad != "auto":
        return float(selection.pad)
    return pad_resistor_ohm(
        check.source_v_rms,
        check.converter_max_v_rms,
        converter.input.impedance_ohm,
        defaults.margin_thin_db,
    )


def _heard_together(
    checked: Sequence[Checked], selection: Selection
) -> dict[Channel, set[Channel]]:
    """Every channel with the channels whose balance against it a pad would change."""
    names = [tap.pair.channel for tap, _ in checked]
    sets = [{name for name in names if _end_of(name) == end} for end in map(_end_of, names)]
    sets += [
        set(output.channels) & set(names) for output in selection.outputs or () if output.joined
    ]
    together = {name: {name} for name in names}
    for one in sets:
        whole = set[Channel]().union(*(together[name] for name in one))
        for name in whole:
            together[name] = whole
    return together


def _end_of(channel: Channel) -> str:
    """The end of the car: "front" of "front-left-tweeter"."""
    return corner_of(channel).removesuffix("-left").removesuffix("-right")


def _behind(
    check: LevelCheck, ohm: Ohms, converter: Converter, defaults: HouseDefaults
) -> LevelCheck:
    """The check behind its pad: the source stays, the margin is that at the input."""
    if ohm == 0:
        return check
    source, limit = check.source_v_rms, check.converter_max_v_rms
    input_ohm, wanted = converter.input.impedance_ohm, defaults.margin_thin_db
    margin = padded_margin_db(source, limit, input_ohm, ohm)
    at_input = source * input_ohm / (input_ohm + 2 * ohm)
    because = (
        f"{check.because}; {ohm_words(ohm)} in each leg brings it to "
        f"{shown(at_input, 2, beside=limit)} V, "
        f"{shown(margin, 1, beside=(0, wanted))} dB to spare (at least {shown(wanted)} dB are "
        f"wanted), {shown(pad_heat_w(source, input_ohm, ohm), 2)} W in both"
    )
    return replace(
        check,
        converter_margin_db=margin,
        verdict=level_verdict(margin, defaults),
        because=because,
        pad_ohm_per_leg=ohm,
    )
