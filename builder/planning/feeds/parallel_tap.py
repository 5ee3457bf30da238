"""A converter input beside a speaker that keeps playing: does it load the output?"""

from __future__ import annotations

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.model.words import Tri
from builder.planning.car.doubt_readings import return_wire_reading
from builder.planning.car.pairs import Pair, across_ohm
from builder.planning.car.selection import Selection
from builder.planning.objections import Objection, object_to
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE, HOUSE_DEFAULT
from builder.units import Ohms, parallel_ohm


def loaded_ohm(speaker_ohm: Ohms, input_ohm: Ohms) -> Ohms:
    """Return what the output sees with speaker and converter side by side. [Ω]

    >>> round(loaded_ohm(4.0, 10_000.0), 3)
    3.998
    """
    return parallel_ohm(speaker_ohm, input_ohm)


def loading_is_negligible(speaker_ohm: Ohms, input_ohm: Ohms, defaults: HouseDefaults) -> bool:
    """Whether the input is so much higher than the speaker that it may be ignored.

    >>> loading_is_negligible(4.0, 10_000.0, HouseDefaults())
    True
    """
    return input_ohm >= defaults.parallel_load_ratio * speaker_ohm


def line_tap_reasons(
    selection: Selection, converter: Converter, defaults: HouseDefaults
) -> list[Reason]:
    """Return what it means to listen beside the line feed of a factory amplifier."""
    taps = [tap for tap in selection.taps if tap.treatment == "line_tap"]
    if not taps:
        return []
    read = [ohm for tap in taps if (ohm := across_ohm(tap.pair)) is not None]
    own, beside = converter.input.impedance_ohm, min(read, default=defaults.amplifier_input_ohm)
    known = "as read" if read else "nobody read it, house default"
    because = (
        f"{own:g} Ω beside the factory amplifier's input ({beside:g} Ω, {known}) is "
        f"{loaded_ohm(beside, own):.0f} Ω; a line output drives that, and both wires stay whole"
    )
    if own < defaults.amplifier_input_ohm:
        because += (
            f". Line outputs are made for {defaults.amplifier_input_ohm:g} Ω: its speakers may get "
            "quieter"
        )
        return [Reason("listening loads the line feed", because, HOUSE_DEFAULT)]
    return [Reason("listening does not load the line feed", because, HOUSE_DEFAULT)]


def parallel_reasons(
    selection: Selection, converter: Converter, defaults: HouseDefaults
) -> list[Reason]:
    """Return one reason on the loading of all pairs that are only listened to."""
    ohms = [
        tap.pair.carries.speaker_ohm
        for tap in selection.listening
        if tap.pair.carries and tap.pair.carries.speaker_ohm
    ]
    if not selection.listening:
        return []
    if len(ohms) < len(selection.listening):
        because = "the ohms of the speaker are not recorded, so the loading is not known"
        return [Reason("measure the speaker's ohms", because, COMMON_PRACTICE)]
    least = max(ohms)
    seen = loaded_ohm(least, converter.input.impedance_ohm)
    share = converter.input.impedance_ohm / least
    said = f"{least:g} Ω beside {converter.input.impedance_ohm:g} Ω is {seen:.2f} Ω"
    times = shown(share, 0, beside=defaults.parallel_load_ratio)
    if loading_is_negligible(least, converter.input.impedance_ohm, defaults):
        because = f"{said}; the input is {times} times the speaker, {_least(defaults)} allowed"
        return [Reason("listening does not load the output", because, HOUSE_DEFAULT)]
    because = f"{said}; the input is only {times} times the speaker, {_least(defaults)} is asked"
    return [Reason("listening loads the output", because, HOUSE_DEFAULT)]


def _least(defaults: HouseDefaults) -> str:
    return f"{defaults.parallel_load_ratio:g} times"


def shared_return_objections(selection: Selection, defaults: HouseDefaults) -> list[Objection]:
    """Return the refusal to drive speakers whose return wire is shared, or may be."""
    pairs = [tap.pair for tap in selection.broken]
    shared = [pair for pair in pairs if _shares(pair) == "yes"]
    unsure = [pair for pair in pairs if _shares(pair) == "unknown" and pair.topology != "bridged"]
    objections = [_shared(shared)] if shared else []
    return [*objections, _may_be_shared(unsure, pairs, defaults)] if unsure else objections


def _shares(pair: Pair) -> Tri:
    return pair.carries.shared_return if pair.carries else "unknown"


def _shared(pairs: list[Pair]) -> Objection:
    names = ", ".join(pair.named for pair in pairs)
    because = (
        f"a return wire is shared by several speakers ({names}); an amplifier with floating "
        "outputs would short through it. Run a new pair to each speaker"
    )
    return object_to("the car's speaker wires cannot be used", because, COMMON_PRACTICE)


def _may_be_shared(unsure: list[Pair], pairs: list[Pair], defaults: HouseDefaults) -> Objection:
    names = ", ".join(pair.named for pair in unsure)
    because = (
        f"nobody checked whether {names} have return wires of their own; on common-ground "
        "outputs speakers often have not"
    )
    readings = [
        return_wire_reading(pair, other, defaults)
        for index, pair in enumerate(pairs)
        for other in pairs[index + 1 :]
    ]
    return object_to("check the return wires first", because, COMMON_PRACTICE, settled_by=readings)
