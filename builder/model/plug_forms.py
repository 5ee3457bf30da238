"""Forms of what is recorded of plugs: functions, states, quantities, faces, and their words."""

from __future__ import annotations

from builder.declaring import Form

AGAINST = Form(
    "against", "The point that the other probe was on.", {"type": ["integer", "string"],
    "minimum": 1, "maximum": 199,
    "pattern": "^(?:battery_negative|body|(?:[A-Z][A-Z0-9]{0,3}\\.)?"
    "(?:[1-9]|[1-9][0-9]|1[0-9][0-9]|[A-Z][0-9]{0,2}))$",
    "maxLength": 16, "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "battery_negative, body, a cavity of the same plug (4), or a cavity of another "
    "plug (B.4)"},
)  # fmt: skip
AT = Form(
    "at", "A plug, or a cavity of a plug.", {"type": "string",
    "pattern": "^[A-Z][A-Z0-9]{0,3}(?:\\.(?:[1-9]|[1-9][0-9]|1[0-9][0-9]|[A-Z][0-9]{0,2}))?$",
    "maxLength": 8, "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "a plug (A), or a plug, a dot and a cavity (A.4)"},
)  # fmt: skip
CLAIM_METHOD = Form(
    "claim_method", "Where a claim comes from.", {}, {"paper": "A printed diagram or plate.",
    "colour": "The wire's colour or its place in the plug, nothing more.", "told": "Somebody said "
    "so.", "job": "A finished job used this pin and has held."},
)  # fmt: skip
DRIVER_SEAT = Form(
    "driver_seat", "The side the driver of one car sits on.", {}, {"left": "Driver on the left.",
    "right": "Driver on the right."},
)  # fmt: skip
FACE = Form(
    "face", "The face of a plug that somebody counted on.", {}, {"wire_side": "Looking at the "
    "wires as they enter the plug.", "mating_side": "Looking into the open face that goes onto the "
    "radio.", "moulded": "Not counted: the numbers were read on the housing, where they are "
    "moulded, or from a bay sheet.", "unknown": "Nobody wrote down which face it was."},
)  # fmt: skip
FUNCTION = Form(
    "function", "What a wire does.", {}, {"constant": "Battery voltage at all times, also after "
    "the car's network has gone to sleep.", "constant_sleeps": "Battery voltage that goes away "
    "when the car's network goes to sleep.", "accessory": "Battery voltage with the key in "
    "accessory and in run.", "run": "Battery voltage with the key in run, not in accessory.",
    "retained": "Like accessory, but stays on after the key is out, often until a door opens.",
    "illumination": "Goes up with the lights; often pulsed for dimming.",
    "illumination_return": "The dimmer's side of the illumination, not a ground.",
    "ground": "The unit's ground.", "speaker": "One leg of a speaker pair; has channel and leg.",
    "line": "One leg of a line-level pair; has channel and leg.", "amplifier_on": "The radio's "
    "turn-on output for an amplifier.", "aerial_on": "The radio's supply or turn-on output for the "
    "aerial.", "mute": "Silences the radio when something pulls it.", "data_high": "The high wire "
    "of a two-wire data bus.", "data_low": "The low wire of a two-wire data bus.",
    "data_single": "A one-wire data bus.", "shield": "The screen of a shielded cable.",
    "speed": "Road-speed pulses.", "reverse": "Battery voltage when reverse gear is in.",
    "park_brake": "Shows whether the parking brake is on.", "camera_supply": "The supply of a "
    "camera, often 5 to 8 V.", "camera_signal": "The picture of a camera.",
    "microphone": "A microphone wire.", "wheel_keys": "The keys on the steering wheel.",
    "not_used": "There is a terminal, and it does nothing.", "unknown": "Nobody could tell what it "
    "does."},
)  # fmt: skip
LEG = Form(
    "leg", "Which leg of a pair a wire is.", {}, {"positive": "The leg that moves the cone "
    "outward.", "negative": "The other leg."},
)  # fmt: skip
LOAD = Form(
    "load", "What loaded the wire during the reading.", {}, {"none": "Nothing but the meter.",
    "lamp_0.4a": "A 5 W test lamp, about 0.4 A.", "1a": "A load of 1 A.", "50ma": "A load of 50 "
    "mA.", "5ma": "A load of 5 mA."},
)  # fmt: skip
PLUG_ID = Form(
    "plug_id", "The letter that names a plug within one record.", {"type": "string",
    "pattern": "^[A-Z][A-Z0-9]{0,3}$", "maxLength": 4, "not": {"type": "string",
    "pattern": "[\\n\\r\\t]"}, "formMeaning": "a capital letter, with up to three capitals or "
    "digits behind it"},
)  # fmt: skip
QUANTITY = Form(
    "quantity", "What was read.", {}, {"dc_v": "Direct voltage in volts.", "ac_v": "Alternating "
    "voltage in volts RMS.", "ohm": "Resistance in ohms, on a dead circuit.",
    "hz": "Frequency in hertz.", "ma": "Current in milliamperes.", "duty_percent": "Duty cycle in "
    "per cent."},
)  # fmt: skip
STATE = Form(
    "state", "The state the car was in during a reading.", {}, {"asleep": "Key out, locked, and "
    "left alone for the minutes given.", "door_open": "Key out, a door open.",
    "accessory": "Key in accessory.", "run": "Key in run, engine off.", "crank": "While the engine "
    "is being started.", "engine": "Engine on.", "lights_on": "Lights on, dimmer at its brightest.",
    "lights_dimmed": "Lights on, dimmer turned down.", "lights_off": "Lights off.",
    "retained": "Key out after use, no door opened yet.", "radio_off": "Key on, radio switched "
    "off.", "radio_on_zero": "Radio on, volume at zero.", "radio_on_tone": "Radio on, playing the "
    "test tone given.", "tuner": "Radio on, playing the tuner.", "other_source": "Radio on, "
    "playing something else than the tuner.", "auto_restart": "While the engine restarts by itself "
    "after a stop.", "unplugged": "The plug is off its unit.", "battery_off": "The battery is "
    "disconnected."},
)  # fmt: skip
UNIT = Form(
    "unit", "What a plug belongs to.", {}, {"radio": "The radio.", "amplifier": "The factory "
    "amplifier.", "fuse_panel": "A fuse panel.", "interface": "A data or media interface box.",
    "other": "Something else; the plug's name says what."},
)  # fmt: skip
