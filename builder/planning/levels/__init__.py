"""Volts from the radio to the speaker: pads, line level, gain, loads."""
