"""What kind of sound a protected one is, told from its name: each is brought about in its own way.

A record names its sounds freely, so words of the name are all there is to tell them by.
"""

from __future__ import annotations


def is_call(sound: str) -> bool:
    """Whether it is the voice of the emergency call, which speaks in a self-test.

    >>> is_call("emergency-call voice")
    True
    """
    return "emergency" in sound.lower()


def is_cancellation(sound: str) -> bool:
    """Whether it is the noise cancellation, which is heard only while the engine turns.

    >>> is_cancellation("noise cancellation"), is_cancellation("navigation prompts")
    (True, False)
    """
    return "cancel" in sound.lower()


def is_fault(sound: str) -> bool:
    """Whether it is a warning of a fault: silent in a sound car, so its lamp is looked at.

    >>> is_fault("pedestrian sounder fault"), is_fault("sliding-door warning")
    (True, False)
    """
    return "fault" in sound.lower()
