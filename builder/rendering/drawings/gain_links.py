"""What lies between the places of a level chain, in words: pad, gain, what it is set to."""

from __future__ import annotations

from builder.figures import read_as, shown
from builder.planning.levels.level_pad import ohm_words
from builder.planning.pack_details import LevelChain


def pad_link(chain: LevelChain) -> str:
    """What stands before the converter's input."""
    if not chain.pad_ohm_per_leg:
        return "straight in, no pad"
    return f"pad: {ohm_words(chain.pad_ohm_per_leg)} in each leg"


def gain_link(chain: LevelChain) -> str:
    """What the converter does with what comes in."""
    if chain.converter_gain is None:
        return "gain not worked out"
    kind = (
        f"fixed gain {shown(chain.converter_gain, 3)}"
        if chain.gain_min == chain.gain_max
        else f"gain {_gain_words(chain)}"
    )
    kind += _bass(chain)
    return f"{chain.sources_summed} sources summed, {kind}" if chain.sources_summed > 1 else kind


def _gain_words(chain: LevelChain) -> str:
    """A gain beside its range, with the digits that tell it from both ends: "0.546 of …"."""
    gain = shown(chain.converter_gain, 3, beside=(chain.gain_min, chain.gain_max))
    return f"{gain} of {shown(chain.gain_min)} to {shown(chain.gain_max)}"


def _bass(chain: LevelChain) -> str:
    """What a subwoofer's tone finds at the input, and whether the loss is given back."""
    if chain.tone_source_v_rms is None or chain.tone_low_hz is None:
        return ""
    said = f"; {chain.tone_low_hz:g} Hz at {read_as(chain.tone_source_v_rms, 'V')} V"
    return said + (", corrected" if chain.correction == "on" else "")


def set_link(chain: LevelChain) -> str:
    """What the amplifier's gain is set to, and why no further."""
    return f"set by meter: {chain.set_w:.4g} W, limited by the {chain.limited_by}"
