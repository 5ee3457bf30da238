"""Forms of what is recorded of a car as a whole, and their words."""

from __future__ import annotations

from builder.declaring import Form

AMPLIFIER_FEED = Form(
    "amplifier_feed", "What the factory amplifier is fed with.", {}, {"none": "There is no factory "
    "amplifier.", "analogue_variable": "Analogue sound that follows the volume control.",
    "analogue_fixed": "Analogue sound at a fixed level; the amplifier does the volume.",
    "digital": "A digital link; there is no sound on the radio's wires to tap.",
    "unknown": "Nobody has looked, or nobody could tell."},
)  # fmt: skip
BAND = Form(
    "band", "Which part of the sound a pair carries.", {}, {"full": "All of it.",
    "low": "The low part, up to lowpass_hz.", "high": "The high part, from highpass_hz on.",
    "mid": "A middle part, from highpass_hz to lowpass_hz.", "unknown": "Nobody has looked, or "
    "nobody could tell."},
)  # fmt: skip
COST = Form(
    "cost", "What an answer costs.", {}, {"look": "A look, without tools.", "panel": "A trim panel "
    "has to come off.", "radio": "The radio has to come out."},
)  # fmt: skip
PHOTO_FILE = Form(
    "photo_file", "The file name of a photo that lies beside the record.", {"type": "string",
    "pattern": "^[A-Za-z0-9][A-Za-z0-9._-]*\\.(?:jpg|jpeg|png|webp)$", "maxLength": 100,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"}, "formMeaning": "a bare file name that "
    "ends in .jpg, .jpeg, .png or .webp"},
)  # fmt: skip
PHOTO_LICENCE = Form(
    "photo_licence", "The licence of a photo.", {"type": "string",
    "pattern": "^(?:own|[A-Z][A-Za-z0-9.+-]*[A-Z0-9][A-Za-z0-9.+-]*)$", "maxLength": 60,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"}, "formMeaning": "own, or an SPDX "
    "identifier such as CC0-1.0 or CC-BY-4.0"},
)  # fmt: skip
RADIO_OUTPUTS = Form(
    "radio_outputs", "How the radio drives its speakers.", {}, {"bridged": "Two driven legs a "
    "pair, both near half the battery voltage; neither leg is ground.",
    "common_ground": "One driven leg a pair; the other is ground.", "line": "Line level, for an "
    "amplifier of the factory.", "none": "The radio has no speaker outputs.",
    "unknown": "Nobody has looked, or nobody could tell."},
)  # fmt: skip
SIDE = Form(
    "side", "The side the driver sits on.", {}, {"left": "Driver on the left.",
    "right": "Driver on the right.", "both": "The record holds for both sides."},
)  # fmt: skip
