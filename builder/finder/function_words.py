"""What people call the functions of a wire.

`tests/unit/finder` holds that every word stands once and every meaning is a word of the records.
"""

from __future__ import annotations

from builder.finder.meaning import COMMON, TERMINALS, TERMINALS_READ, Meaning

_CONSTANT = ("constant", "constant_sleeps")
_ACCESSORY = ("accessory", "retained")
_SWITCHED = ("retained", "accessory", "run")
_IGNITION = ("run", "accessory", "retained")
_TURN_ON = ("amplifier_on", "retained", "accessory")
_LIGHTS = ("illumination", "illumination_return")


def _common(means: tuple[str, ...], *words: str) -> Meaning:
    return Meaning("function", means, words, COMMON)


FUNCTIONS: tuple[Meaning, ...] = (
    _common(_SWITCHED, "switched", "switch", "switched power", "switched 12v", "switched live"),
    _common(_SWITCHED, "switched supply", "switched supplies"),
    _common(_SWITCHED, "switched positive", "key on", "goes off with key"),
    _common(
        _CONSTANT,
        *("constant", "constant 12v", "constant power", "permanent", "permanent live", "perm"),
        *("battery", "batt", "bat", "b+", "memory", "backup", "always on", "always live"),
        *("hot at all times", "unswitched", "live", "feed", "main supply", "constant supply"),
    ),
    Meaning("function", _CONSTANT, ("30", "kl 30", "kl30", "terminal 30"), TERMINALS_READ),
    _common(("ground",), "ground", "gnd", "earth", "mass", "minus", "negative", "chassis"),
    Meaning("function", ("ground",), ("31", "kl 31", "kl31", "terminal 31"), TERMINALS_READ),
    _common(_ACCESSORY, "accessory", "acc", "acc+", "accy", "accessory supply"),
    Meaning("function", _ACCESSORY, ("15r", "kl 15r", "kl15r", "terminal 15r"), TERMINALS),
    _common(("retained",), "retained", "retained power", "rap", "delayed accessory"),
    _common(("retained",), "retained supply", "retained accessory"),
    _common(_IGNITION, "ignition", "ign", "ignition live"),
    _common(_IGNITION[:1], "run", "run supply"),
    Meaning("function", _IGNITION, ("15", "kl 15", "kl15", "terminal 15"), TERMINALS),
    _common(_ACCESSORY + _IGNITION[:1], "key"),
    _common(_TURN_ON, "turn on", "turnon", "remote", "remote wire", "remote turn on"),
    _common(_TURN_ON, "remote output", "remote out", "turn on output"),
    _common(_TURN_ON, "trigger", "rem", "wake", "wake up"),
    _common(
        ("amplifier_on",),
        *("amp on", "amp", "amplifier on", "amplifier", "amplifier turn on", "amp turn on"),
        *("amp remote", "amp enable", "p cont", "pcont", "amplifier turn on output"),
    ),
    _common(
        _LIGHTS, "illumination", "illum", "ill", "illumination+", "lights", "lighting", "dimmer"
    ),
    _common(_LIGHTS, "dash lights", "dim", "parking lights", "side lights"),
    Meaning("function", _LIGHTS, ("58", "58d", "kl 58", "kl58", "terminal 58"), TERMINALS),
    _common(("speaker",), "speaker", "speakers", "spk", "spkr", "loudspeaker"),
    _common(("line",), "line", "line out", "line level", "preout", "pre out", "low level"),
    _common(("aerial_on",), "aerial", "antenna", "ant", "antenna power", "power antenna"),
    _common(("aerial_on",), "aerial on", "antenna on", "aerial turn on output"),
    _common(("mute",), "mute", "muting", "tel mute", "phone mute"),
    _common(("data_high", "data_low", "data_single"), "data", "bus", "network"),
    _common(("data_high",), "can high", "can h", "can hi", "data high", "bus high"),
    _common(("data_low",), "can low", "can l", "can lo", "data low", "bus low"),
    _common(("data_high", "data_low"), "can", "can bus", "canbus"),
    _common(("data_single",), "lin", "lin bus", "single wire data"),
    _common(("reverse",), "reverse", "reversing", "reverse light", "backup light", "rev"),
    _common(("speed",), "speed", "speed pulse", "vss", "speed signal", "speed sensor"),
    _common(("park_brake",), "park brake", "parking brake", "hand brake", "handbrake", "brake"),
    _common(("camera_supply", "camera_signal"), "camera", "cam"),
    _common(("microphone",), "microphone", "mic"),
    _common(("wheel_keys",), "wheel keys", "steering wheel", "swc", "steering wheel keys", "wheel"),
    _common(("shield",), "shield", "screen", "drain"),
    _common(("unknown",), "unknown"),
    _common(("not_used",), "not used", "unused", "empty", "spare"),
)
