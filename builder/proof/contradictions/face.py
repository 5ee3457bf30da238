"""Was it counted from the other face? The readings of a visit, or the lines of a paper, are laid
over the shell in its four poses."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.plugs import Pin, Plug, Reading
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.explaining import Case, Explanation, best_fit, listed, readings_at
from builder.proof.faces.poses import (
    AGREES,
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
from builder.proof.grading.item import Item
from builder.proof.grading.weighing import Place


def explain_face(case: Case) -> Explanation:
    """Say whether what speaks against a pin was counted from the other face or upside down."""
    plug, housing = case.plug, case.housing
    if plug is None:
        return Explanation("face", "does not fit", "a fuse position has no face")
    if housing is None:
        return Explanation("face", "cannot be told", "the housing of this plug is not in the book")
    tried = [(item, _poses(case, plug, housing, item)) for item in case.theirs]
    if all(found.verdict == "view mix-up" for _, found in tried):
        return _fitting(plug, housing, tried, _doubted(case))
    item, found = next(one for one in tried if one[1].verdict != "view mix-up")
    said = f"{item.contributor}: {found.sentence}"
    if found.verdict == "too few":
        return Explanation(
            "face", "cannot be told", f"{said}; at least {LEAST_COMPARED} are wanted to compare"
        )
    return Explanation(
        "face", "does not fit", f"{said}, and no other way of holding it does better"
    )


def explain_visit(
    vehicle: Vehicle, plug: Plug, housing: Housing, session: str, defaults: HouseDefaults
) -> Explanation | None:
    """Return what explains a visit to a plug that fits the record in another pose only.

    None when it fits as it stands, or in no pose, or too few of its places can be compared. What
    fits from both faces, such as a plug of speakers alone, cannot be told.
    """
    read = [pin for pin in plug.pins if any(r.session == session for r in pin.readings)]
    if len(read) < LEAST_COMPARED:
        return None
    case = Case(vehicle, Place(plug.id, read[0]), (), (), {plug.housing: housing}, defaults)
    if _scored(case, plug, housing, "as_is", (session,)).score >= AGREES:
        return None  # no mix-up, whatever the other poses say; so it is with most visits
    found = _of_visit(case, plug, housing, (session,))
    if found.verdict != "view mix-up":
        return None
    by = next((one.by for one in vehicle.sessions if one.id == session), session)
    item = Item(by, "part", 0.0, False, "", (session,), measured=True)
    return _fitting(plug, housing, [(item, found)], (item,))


def _of_visit(case: Case, plug: Plug, housing: Housing, sessions: Collection[str]) -> PoseVerdict:
    return verdict_of([_scored(case, plug, housing, pose, sessions) for pose in POSES])


def _poses(case: Case, plug: Plug, housing: Housing, item: Item) -> PoseVerdict:
    if item.measured:
        return _of_visit(case, plug, housing, item.sessions)
    said = {
        pin.cavity: (claim.says, claim.channel, claim.leg)
        for pin in plug.pins
        for claim in pin.claims
        if claim.by == item.contributor and claim.method == item.method and claim.says != "unknown"
    }
    return compare_poses(housing, meanings(plug.pins), said)


def _scored(
    case: Case, plug: Plug, housing: Housing, pose: Pose, sessions: Collection[str]
) -> PoseScore:
    """Count the cavities whose readings fit what the record says of their image."""
    image, pins = pose_map(housing, pose), _by_cavity(plug)
    fits = [
        best_fit(case, Place(plug.id, pins[image[pin.cavity]]), _seen(image, pin, sessions))
        for pin in plug.pins
        if image.get(pin.cavity) in pins
    ]
    spoken = [fit for fit in fits if fit is not None]
    return PoseScore(pose, sum(not fit.faults for fit in spoken), len(spoken))


def _seen(image: dict[str, str], pin: Pin, sessions: Collection[str]) -> tuple[Reading, ...]:
    found = (reading for reading in pin.readings if reading.session in sessions)
    return tuple(replace(one, against=image.get(one.against, one.against)) for one in found)


def _by_cavity(plug: Plug) -> dict[str, Pin]:
    return {pin.cavity: pin for pin in reversed(plug.pins) if pin.function != "unknown"}


def _fitting(
    plug: Plug, housing: Housing, tried: list[tuple[Item, PoseVerdict]], doubted: tuple[Item, ...]
) -> Explanation:
    pose = tried[0][1].best.pose
    return Explanation(
        "face",
        "fits",
        "; ".join(f"{one.contributor}: {poses.sentence}" for one, poses in tried),
        f"find two wires of plug {plug.id} by colour; if it was {POSE_WORDS[pose]}, "
        f"{_moves(plug, pose_map(housing, pose), doubted)}",
        tuple(dict.fromkeys(name for item in doubted for name in item.sessions)),
    )


def _doubted(case: Case) -> tuple[Item, ...]:
    """Whose count is to be looked at: of two that disagree, the one of unknown face."""
    sure = all(item.face_known for item in case.theirs)
    guess = tuple(item for item in case.ours if item.measured and not item.face_known)
    known = any(item.measured and item.face_known for item in case.ours)
    return guess if sure and guess and not known else case.theirs


def _moves(plug: Plug, image: dict[str, str], doubted: tuple[Item, ...]) -> str:
    """What to move where; only cavities that have a line are named."""
    item, lines = doubted[0], {pin.cavity for pin in plug.pins}
    moved = [
        (pin.cavity, image[pin.cavity])
        for pin in plug.pins
        if pin.cavity in image and (readings_at(Place("", pin), item) or not item.measured)
    ]
    named = listed([f"{own} to {other}" for own, other in moved if other in lines])
    missing = listed(sorted({other for _, other in moved if other not in lines}))
    what = f"the readings of visit {' and '.join(item.sessions)}" if item.measured else "its lines"
    move = f"move {what} from cavity {named}" if named else f"move {what}"
    return move + (f" (first give cavity {missing} a line)" if missing else "")
