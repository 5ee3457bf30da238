"""The recording behind a shipped visit: a computed radio, so that anybody can make it again.

    python tests/recorded_teasel.py FOLDER

writes teasel-fronts.wav, and the line to type that reads it. The visit says that a simulator made
it: no car was recorded. A radio that takes bass away with the volume, cuts at its supply at the
last step, delays the right side for the driver's seat, and turns it by an all-pass.
"""

from __future__ import annotations

import sys
from pathlib import Path

from sound_car import Car, Pair, all_pass, half, peak

from builder.sound.track import Choice, plan_track
from builder.sound.wav_writing import wav_of

NAME = "teasel-fronts.wav"
CHOICE = Choice(steps=4)
STEPS = (12, 22, 30, 36)
CORNER_HZ = 3.0
METER_V = (3.47, 3.44)
LEAD = "tin-1"
EQUALISER = [peak(90, 4, 0.9), peak(2500, -3, 1.2), half("Butterworth 2", "high", 38)]
CAR = Car(
    [
        Pair("left", 9.6, EQUALISER),
        Pair("right", 9.6, [*EQUALISER, all_pass(240, 0)], delay_s=0.0012),
    ],
    step_db=(-24.0, -12.0, -4.0, 0.0),
    bass_db=(6.0, 3.0, -1.0, -4.0),
    rail_v=12.2,
    ppm=37.0,
    chain_corner_hz=CORNER_HZ,
    full_scale_v=1.2,
    seed=2025,
    track=plan_track(CHOICE),
)


def recording() -> bytes:
    """The WAV file."""
    return wav_of(*CAR.recorded().channels, 48_000)


def typed(file: Path) -> list[str]:
    """What is typed to read it into its visit."""
    said = ["sound", "read", str(file), "--steps", "4", "--simulated"]
    said += [f"--meter={at}={volts}" for at, volts in enumerate(METER_V, 1)]
    said += [f"--volume={step}" for step in STEPS]
    said += ["--pair", "1=front-left", "--pair", "2=front-right", "--at-volume", "36"]
    return [*said, "--lead", LEAD, "--set-to", "driver's seat, tone in the middle, no effects"]


if __name__ == "__main__":
    place = Path(sys.argv[1]) / NAME
    place.write_bytes(recording())
    print("loombook", *(f'"{each}"' if " " in each else each for each in typed(place)))
