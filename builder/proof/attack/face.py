"""Was it counted from the other face? The readings of a visit, or the lines of a paper, are laid
over the shell in its four poses."""

from __future__ import annotations

from dataclasses import replace

from builder.model.housing import Housing
from builder.model.plugs import Pin, Plug, Reading
from builder.proof.attack.explaining import Case, Explanation, best_fit, listed, readings_at
from builder.proof.evidence import Item
from builder.proof.poses import (
    LEAST_COMPARED,
    POSE_WORDS,
    POSES,
    Pose,
    PoseScore,
    PoseVerdict,
    compare_poses,
    meanings,
    pose_map,
    verdict_of,
)
from builder.proof.weighing import Place


def explain_face(case: Case) -> Explanation:
    """Say whether what speaks against a pin was counted from the other face or upside down."""
    plug, housing = case.plug, case.housing
    if plug is None:
        return Explanation("face", "does not fit", "a fuse position has no face")
    if housing is None:
        return Explanation("face", "cannot be told", "the shell of this plug is not in the book")
    tried = [(item, _poses(case, plug, housing, item)) for item in case.theirs]
    if all(found.verdict == "view mix-up" for _, found in tried):
        return _fits(plug, housing, tried)
    item, found = next(one for one in tried if one[1].verdict != "view mix-up")
    said = f"{item.contributor}: {found.sentence}"
    if found.verdict == "too few":
        return Explanation(
            "face", "cannot be told", f"{said}; at least {LEAST_COMPARED} are wanted to compare"
        )
    return Explanation(
        "face", "does not fit", f"{said}, and no other way of holding it does better"
    )


def _poses(case: Case, plug: Plug, housing: Housing, item: Item) -> PoseVerdict:
    if item.measured:
        return verdict_of([_scored(case, plug, housing, pose, item) for pose in POSES])
    said = {
        pin.cavity: (claim.says, claim.channel, claim.leg)
        for pin in plug.pins
        for claim in pin.claims
        if claim.by == item.contributor and claim.method == item.method and claim.says != "unknown"
    }
    return compare_poses(housing, meanings(plug.pins), said)


def _scored(case: Case, plug: Plug, housing: Housing, pose: Pose, item: Item) -> PoseScore:
    """Count the cavities whose readings fit what the record says of their image."""
    image, pins = pose_map(housing, pose), _by_cavity(plug)
    fits = [
        best_fit(case, Place(plug.id, pins[image[pin.cavity]]), _seen(image, pin, item))
        for pin in plug.pins
        if image.get(pin.cavity) in pins
    ]
    spoken = [fit for fit in fits if fit is not None]
    return PoseScore(pose, sum(not fit.faults for fit in spoken), len(spoken))


def _seen(image: dict[str, str], pin: Pin, item: Item) -> tuple[Reading, ...]:
    found = readings_at(Place("", pin), item)
    return tuple(replace(one, against=image.get(one.against, one.against)) for one in found)


def _by_cavity(plug: Plug) -> dict[str, Pin]:
    return {pin.cavity: pin for pin in reversed(plug.pins) if pin.function != "unknown"}


def _fits(plug: Plug, housing: Housing, tried: list[tuple[Item, PoseVerdict]]) -> Explanation:
    item, found = tried[0]
    image = pose_map(housing, found.best.pose)
    moved = [
        f"{pin.cavity} to {image[pin.cavity]}"
        for pin in plug.pins
        if pin.cavity in image and (readings_at(Place("", pin), item) or not item.measured)
    ]
    what = (
        f"the readings of session {' and '.join(item.sessions)}" if item.measured else "its lines"
    )
    return Explanation(
        "face",
        "fits",
        "; ".join(f"{one.contributor}: {poses.sentence}" for one, poses in tried),
        f"find two wires of plug {plug.id} by colour; if it was {POSE_WORDS[found.best.pose]}, "
        f"move {what} from cavity {listed(moved)}",
    )
