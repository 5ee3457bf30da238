"""What people call the functions of a wire.

`tests/unit/finder` holds that every word stands once and every meaning is a word of the records;
`tests/ways_of_writing.yaml` how each is read by every way in.
"""

from __future__ import annotations

from builder.model.said.meaning import COMMON, ELSE, EMPTY, TERMINALS, TERMINALS_READ, Meaning
from builder.model.words import Function

SWITCHED: tuple[Function, ...] = ("retained", "accessory", "run")
"""What a question for a switched wire means, the best for a turn-on first."""

_CONSTANT = ("constant", "constant_sleeps")
_ACCESSORY = ("accessory", "retained")
_IGNITION = ("run", "accessory", "retained")
_TURN_ON = ("amplifier_on", "retained", "accessory")
_LIGHTS = ("illumination", "illumination_return")
_AERIAL = ("aerial_on",)


def _common(means: tuple[str, ...], *words: str, written: tuple[str, ...] = ()) -> Meaning:
    return Meaning("function", means, words, COMMON, written)


FUNCTIONS: tuple[Meaning, ...] = (
    _common(SWITCHED, "switched", "switch", "switched power", "switched 12v", "switched live"),
    _common(SWITCHED, "switched supply", "switched supplies", "sw 12v", "+12v switched", "swd"),
    _common(SWITCHED, "switched positive", "key on", "goes off with key", "switched +"),
    _common(
        _CONSTANT,
        *("constant", "constant 12v", "constant power", "permanent", "permanent live", "perm"),
        *("b+", "always on", "always live", "perm live", "perm 12v", "const", "+b", "12v constant"),
        *("hot at all times", "unswitched", "constant supply", "permanent 12v", "perm +"),
        *("constant +", "12v permanent"),
        written=("constant",),
    ),
    _common(
        _CONSTANT,
        *("battery", "batt", "bat", "memory", "backup", "live", "feed", "main supply", "mem"),
        written=("constant", ELSE),
    ),
    _common(_CONSTANT, "bat+", "batt+", "battery +", written=("constant",)),
    Meaning(
        "function",
        _CONSTANT,
        ("30", "kl 30", "kl30", "terminal 30", "t30"),
        TERMINALS_READ,
        ("constant",),
    ),
    _common(("ground",), "ground", "gnd", "earth", "mass", "chassis", "grnd", "chassis ground"),
    _common(("ground",), "minus", "negative", written=("ground", ELSE)),
    Meaning("function", ("ground",), ("31", "kl 31", "kl31", "terminal 31", "t31"), TERMINALS_READ),
    _common(
        _ACCESSORY,
        *("accessory", "acc", "acc+", "accy", "accessory supply", "accs", "acc 12v", "acc power"),
        written=("accessory",),
    ),
    Meaning(
        "function",
        _ACCESSORY,
        ("15r", "kl 15r", "kl15r", "terminal 15r"),
        TERMINALS,
        ("accessory",),
    ),
    _common(("retained",), "retained", "retained power", "rap", "delayed accessory"),
    _common(("retained",), "retained supply", "retained accessory"),
    _common(
        _IGNITION,
        *("ignition", "ign", "ignition live", "ign live", "ign+", "igntn"),
        written=("run", "accessory"),
    ),
    _common(_IGNITION[:1], "run", "run supply", "key run"),
    Meaning(
        "function", _IGNITION, ("15", "kl 15", "kl15", "terminal 15", "t15"), TERMINALS, ("run",)
    ),
    _common(_ACCESSORY + _IGNITION[:1], "key"),
    _common(_TURN_ON, "turn on", "turnon", "remote", "remote wire", "remote turn on"),
    _common(_TURN_ON, "remote output", "remote out", "turn on output"),
    _common(_TURN_ON, "trigger", "rem", "wake", "wake up", "rem out"),
    _common(("amplifier_on",), "amp", "amplifier", written=("amplifier_on", ELSE)),
    _common(
        ("amplifier_on",),
        *("amp on", "amplifier on", "amplifier turn on", "amp turn on", "amp rem", "amp trigger"),
        *("amp remote", "amp enable", "p cont", "pcont", "amplifier turn on output"),
    ),
    _common(
        _LIGHTS,
        *("illumination", "illum", "ill", "illumination+", "illum+", "illumination feed", "ill+"),
        written=("illumination",),
    ),
    _common(_LIGHTS, "lights", "lighting", "dimmer", "dash lights", "dim"),
    _common(_LIGHTS, "parking lights", "side lights"),
    _common(
        _LIGHTS,
        "illumination return",
        "illum-",
        "ill-",
        "dimmer return",
        written=("illumination_return",),
    ),
    Meaning(
        "function",
        _LIGHTS,
        ("58", "58d", "kl 58", "kl58", "terminal 58"),
        TERMINALS,
        ("illumination",),
    ),
    _common(("speaker",), "speaker", "speakers", "spk", "spkr", "loudspeaker", "speaker leg"),
    _common(("line",), "line", "line out", "line level", "preout", "pre out", "low level"),
    _common(
        _AERIAL,
        *("aerial", "antenna", "ant", "antenna power", "power antenna"),
        written=("aerial_on", ELSE),
    ),
    _common(_AERIAL, "aerial on", "antenna on", "aerial turn on output", "power aerial", "ant on"),
    _common(("mute",), "mute", "muting", "tel mute", "phone mute"),
    _common(("data_high", "data_low", "data_single"), "data", "bus", "network"),
    _common(("data_high",), "can high", "can h", "can hi", "data high", "bus high", "canh", "can+"),
    _common(("data_low",), "can low", "can l", "can lo", "data low", "bus low", "canl", "can-"),
    _common(("data_high", "data_low"), "can", "can bus", "canbus"),
    _common(("data_single",), "lin", "lin bus", "single wire data", "data single"),
    _common(("reverse",), "reverse", "reversing", "reverse light", "backup light", "rev"),
    _common(("speed",), "speed", "speed pulse", "vss", "speed signal", "speed sensor"),
    _common(("park_brake",), "park brake", "parking brake", "hand brake", "handbrake", "p brake"),
    _common(("park_brake",), "brake", written=("park_brake", ELSE)),
    _common(("camera_supply", "camera_signal"), "camera", "cam"),
    _common(("camera_supply",), "camera supply", "camera power", "cam power"),
    _common(("camera_signal",), "camera signal", "camera video", "cam video"),
    _common(("microphone",), "microphone", "mic"),
    _common(("wheel_keys",), "wheel keys", "steering wheel", "swc", "steering wheel keys"),
    _common(("wheel_keys",), "steering wheel control", "steering controls"),
    _common(("wheel_keys",), "wheel", written=("wheel_keys", ELSE)),
    _common(("shield",), "shield", "screen", "drain", "drain wire"),
    _common(("unknown",), "unknown", "dont know", "don't know", "not known", "?", "??"),
    _common(("not_used",), "not used", "unused"),
    _common(("not_used",), "empty", "no terminal", "no pin", "blank", written=(EMPTY,)),
    _common(("not_used",), "nothing in it", "no wire", "vacant", written=(EMPTY,)),
    _common(("not_used",), "spare", "nc", "n / c", "not connected", written=("not_used", EMPTY)),
)
