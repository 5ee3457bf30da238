"""Converters, amplifiers, cables, looms and data interfaces: the parts on a shop's shelf."""

from __future__ import annotations

from builder.model.parts.amplifier import Amplifier, AmplifierSupply, AmplifierTurnOn
from builder.model.parts.amplifier_channels import AmplifierChannels
from builder.model.parts.cable import Cable, CablePair
from builder.model.parts.converter import Converter
from builder.model.parts.converter_signal import ConverterInput, Gain
from builder.model.parts.converter_switching import (
    BassCorrection,
    ConverterSupply,
    RemoteIn,
    RemoteOut,
)
from builder.model.parts.interface import Interface, InterfaceOutput
from builder.model.parts.loom import Loom

Supply = ConverterSupply | AmplifierSupply
"""What a part asks of 12 V."""

__all__ = [
    "Amplifier",
    "AmplifierChannels",
    "AmplifierTurnOn",
    "BassCorrection",
    "Cable",
    "CablePair",
    "Converter",
    "ConverterInput",
    "Gain",
    "Interface",
    "InterfaceOutput",
    "Loom",
    "RemoteIn",
    "RemoteOut",
    "Supply",
]
