"""Amplify the doors: which pairs are broken, which are joined, what stays on the car."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.model.words import SPLIT_BANDS, Channel
from builder.planning.car.pairs import Pair
from builder.planning.car.selection import Selection, number_taps
from builder.planning.car.sources import Sources
from builder.planning.feeds.band_sums import check_sum
from builder.planning.objections import Objection, object_to
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE, DEVICE_RECORD, RECORD, SUB_FROM_INPUTS
from builder.planning.words import End, TappedAs, WishFor

_ENDS: tuple[End, ...] = ("front", "rear")
_CORNERS: dict[End, tuple[Channel, Channel]] = {
    "front": ("front-left", "front-right"),
    "rear": ("rear-left", "rear-right"),
}


@dataclass(frozen=True, slots=True)
class _Wish:
    """Pairs wanted together: one end of the car, or the factory subwoofer."""

    name: WishFor
    groups: tuple[tuple[Pair, ...], ...]
    treatment: TappedAs

    @property
    def inputs(self) -> int:
        return sum(len(group) for group in self.groups)


def choose_doors(converter: Converter, sources: Sources, defaults: HouseDefaults) -> Selection:
    """Return the pairs to break for new amplifier channels, or why that cannot be."""
    wishes, objections = _wishes(converter, sources)
    taken, left = _fit(wishes, converter.inputs)
    purpose = _purpose(converter, taken)
    if not taken:
        return Selection(purpose, objections=(*objections, _nothing_fits(wishes, converter)))
    groups = [(group, wish.treatment) for wish in taken for group in wish.groups]
    short = _outputs_short(converter, len(groups))
    reasons, sum_objections = _sums(taken, converter, defaults)
    return Selection(
        purpose,
        number_taps(groups),
        (*_reasons(wishes, taken, left, converter), *reasons),
        _losses(taken, left, sources, converter),
        (*objections, *short, *sum_objections),
    )


def _wishes(converter: Converter, sources: Sources) -> tuple[list[_Wish], tuple[Objection, ...]]:
    wishes: list[_Wish] = []
    objections: list[Objection] = []
    for end in _ENDS:
        corners = _CORNERS[end]
        groups = [group for corner in corners if (group := _side_group(sources, corner))]
        if len(groups) == 2:
            wishes.append(_Wish(end, tuple(groups), "intercept"))
        elif barred := [why for name, why in sources.barred.items() if name.startswith(end)]:
            objections.append(_end_barred(end, barred))
        elif groups:
            objections.append(_half_an_end(end))
    if converter.inputs >= SUB_FROM_INPUTS and "sub" in sources.pairs:
        wishes.append(_Wish("sub", ((sources.pairs["sub"],),), "addon"))
    return wishes, tuple(objections)


def _side_group(sources: Sources, corner: Channel) -> tuple[Pair, ...]:
    """The full-range pair of one corner, or its woofer and tweeter."""
    if corner in sources.pairs:
        return (sources.pairs[corner],)
    split = SPLIT_BANDS[corner]
    if all(name in sources.pairs for name in split):
        return tuple(sources.pairs[name] for name in split)
    return ()


def _end_barred(end: str, barred: list[str]) -> Objection:
    return object_to(f"the {end} speakers cannot be broken", "; ".join(barred), RECORD)


def _half_an_end(end: str) -> Objection:
    because = f"only one side of the {end} is described; describe the other before breaking either"
    return object_to(f"the {end} speakers cannot be broken", because, RECORD)


def _fit(wishes: list[_Wish], inputs: int) -> tuple[list[_Wish], list[_Wish]]:
    """Keep what fits: when it does not, the rear stays on the car first, then the subwoofer."""
    taken = list(wishes)
    for name in ("rear", "sub", "front"):
        if sum(wish.inputs for wish in taken) > inputs:
            taken = [wish for wish in taken if wish.name != name]
    if not any(wish.treatment == "intercept" for wish in taken):
        return [], list(wishes)
    return taken, [wish for wish in wishes if wish not in taken]


def _purpose(converter: Converter, taken: list[_Wish]) -> str:
    ends = [wish.name for wish in taken if wish.treatment == "intercept"]
    doors = "amplify the doors" if len(ends) != 1 else f"amplify the {ends[0]} doors"
    has_sub = any(wish.name == "sub" for wish in taken)
    from_sum = converter.inputs >= SUB_FROM_INPUTS and converter.sum == "any"
    return f"{doors} and add a subwoofer" if has_sub or from_sum else doors


def _nothing_fits(wishes: list[_Wish], converter: Converter) -> Objection:
    breakable = [wish.inputs for wish in wishes if wish.treatment == "intercept"]
    if not breakable:
        because = "neither the front nor the rear is described on both sides"
        return object_to("no doors to amplify", because, RECORD)
    because = (
        f"{min(breakable)} inputs are needed for one end of this car, {converter.name} has "
        f"{converter.inputs}"
    )
    return object_to("too few inputs", because, DEVICE_RECORD)


def _outputs_short(converter: Converter, groups: int) -> tuple[Objection, ...]:
    if groups <= converter.outputs:
        return ()
    because = f"{groups} line outputs are needed, {converter.name} has {converter.outputs}"
    return (object_to("too few outputs", because, DEVICE_RECORD),)


def _sums(
    taken: list[_Wish], converter: Converter, defaults: HouseDefaults
) -> tuple[list[Reason], list[Objection]]:
    joined = [(group[0], group[1]) for wish in taken for group in wish.groups if len(group) == 2]
    if joined and converter.sum == "none":
        return [], [_cannot_sum(joined, converter)]
    reasons: list[Reason] = []
    objections: list[Objection] = []
    for woofer, tweeter in joined:
        said, against = check_sum(woofer, tweeter, converter, defaults)
        reasons += said
        objections += against
    return reasons, objections


def _cannot_sum(joined: list[tuple[Pair, Pair]], converter: Converter) -> Objection:
    corners = " and ".join(pairs[0].named.removesuffix(" woofer") for pairs in joined)
    because = (
        f"{corners} are split into woofer and tweeter, and {converter.name} adds no inputs "
        f"together: {2 * len(joined)} inputs are needed, of which two of one side are summed"
    )
    return object_to("the bands cannot be joined", because, DEVICE_RECORD)


def _reasons(
    wishes: list[_Wish], taken: list[_Wish], left: list[_Wish], converter: Converter
) -> list[Reason]:
    wanted = sum(wish.inputs for wish in wishes)
    used = sum(wish.inputs for wish in taken)
    decision = f"{used} of {converter.inputs} inputs used"
    because = f"{wanted} wanted: " + ", ".join(f"{wish.name} {wish.inputs}" for wish in wishes)
    if left:
        because += f". Too many, so {_names(left)} stays on the car"
    reasons = [
        Reason(
            "break each pair: radio side to the converter, speaker side to the new amplifier",
            "a speaker that a new amplifier drives must leave the car's output, or the two "
            "outputs fight and one is destroyed",
            COMMON_PRACTICE,
        ),
        Reason(decision, because, DEVICE_RECORD),
    ]
    if any(wish.name == "sub" for wish in taken):
        because = "the new subwoofer has its own wires, so the factory pair is an add-on"
        reasons.append(Reason("listen to sub", because, COMMON_PRACTICE))
    return reasons


def _names(wishes: list[_Wish]) -> str:
    return " and ".join(wish.name for wish in wishes)


def _losses(
    taken: list[_Wish], left: list[_Wish], sources: Sources, converter: Converter
) -> tuple[str, ...]:
    losses = []
    ends = {wish.name for wish in taken if wish.treatment == "intercept"}
    for end in _ENDS:
        if end not in ends and any(name.startswith(end) for name in sources.pairs):
            losses.append(
                f"The {end} speakers stay on the car: the fader now weighs two unlike systems."
            )
    if len(ends) == 1 and not any(name.startswith("rear") for name in sources.pairs):
        losses.append("No rear pair is described, so the fader has nothing to weigh against.")
    if left:
        wanted = sum(wish.inputs for wish in (*taken, *left))
        losses.append(f"All of it needs {wanted} inputs, {converter.name} has {converter.inputs}.")
    if "centre" in sources.pairs:
        losses.append("The centre speaker stays on the car, at its old loudness.")
    if taken and any(wish.name == "sub" for wish in left):
        losses.append(f"{converter.name} leaves no input for the factory subwoofer pair.")
    return tuple(losses)
