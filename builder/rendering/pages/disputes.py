"""Disputed pins on a page and in a terminal: both sides, what decides, what it blocks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.model.names import function_name
from builder.model.vehicle import Vehicle
from builder.planning.plan import Plan
from builder.proof.contradictions.dispute import Answer, Dispute, Side
from builder.proof.house import house_note, house_of_rows
from builder.proof.pin_proof import PinProof, Proofs
from builder.rendering.pages.attacks import AttackView, attack_lines, attack_view
from builder.rendering.pages.expected import reads
from builder.rendering.pages.wording import PLAN_KINDS, anchor, pin_anchor, plan_url

ASK_FIRST = (
    "What only looks like a dispute is tried first, most telling first: the other face, two kinds "
    "of car, another plug or cavity, another state of the car."
)
"""In what order a dispute is taken apart."""


class SideView(NamedTuple):
    """One side: what it says, how strongly, and everybody who stands for it."""

    says: str
    strength: str
    voices: tuple[str, ...]


class AnswerView(NamedTuple):
    """What the deciding measurement reads, and what the pin then is."""

    reads: str
    means: str


class BlockedPlan(NamedTuple):
    """A plan that waits for the answer."""

    url: str
    name: str


class DisputeView(NamedTuple):
    """One disputed pin, ready to print. `measure` is "" when no one reading decides."""

    place: str
    anchor: str
    pin_anchor: str
    sides: tuple[SideView, SideView]
    measure: str
    answers: tuple[AnswerView, ...]
    safety: str
    instead: str
    blocks: tuple[BlockedPlan, ...]
    attack: AttackView | None = None
    house: str = ""  # the house defaults behind both sides and the bands


def dispute_views(
    vehicle: Vehicle, proofs: Proofs, plans: Sequence[Plan] = ()
) -> tuple[DisputeView, ...]:
    """Return every disputed pin of the vehicle in the order of the record."""
    return tuple(
        _view(plug.id, found, plans, proofs[pin.path])
        for plug in vehicle.plugs
        for pin in plug.pins
        if pin.path in proofs and (found := proofs[pin.path].dispute) is not None
    )


def _view(plug: str, found: Dispute, plans: Sequence[Plan], proof: PinProof) -> DisputeView:
    cavity, decides = found.pin.cavity, found.decides
    return DisputeView(
        f"{plug}.{cavity}",
        anchor("dispute", plug, cavity),
        pin_anchor(plug, cavity),
        (_side(found.ours), _side(found.theirs)),
        decides.measurement.words if decides else "",
        tuple(_answer(answer) for answer in decides.answers) if decides else (),
        decides.safety if decides else "",
        found.instead,
        tuple(_blocked(plan) for plan in plans if _waits(plan, found)),
        attack_view(proof.attack) if proof.attack else None,
        house_note(
            (*proof.house, *(name for kind in proof.kinds for name in house_of_rows(kind.rows))),
            proof.defaults,
        ),
    )


def _side(side: Side) -> SideView:
    says = function_name(side.says) if side.says else "something else"
    voices = tuple(dict.fromkeys(item.because for item in side.items))
    return SideView(says, f"{side.strength:.2f}", voices)


def _answer(answer: Answer) -> AnswerView:
    read = ", or ".join(reads(row) for row in answer.rows) or "anything else"
    name = function_name(answer.function) if answer.function else "not what the record says"
    return AnswerView(read, name)


def _waits(plan: Plan, found: Dispute) -> bool:
    return plan.kind != "tap_plan" and found.pin.path in plan.used_paths


def _blocked(plan: Plan) -> BlockedPlan:
    name = f"{plan.converter}: {PLAN_KINDS[plan.kind].lower()}, {plan.purpose}"
    return BlockedPlan(plan_url(plan.vehicle, plan.converter), name)


def dispute_lines(view: DisputeView) -> Iterator[str]:
    """Yield a dispute as lines for a terminal."""
    for side in view.sides:
        yield f"{view.place} is {side.says} ({side.strength})"
        yield from (f"  {voice}" for voice in side.voices)
    if view.attack:
        yield from attack_lines(view.attack)
    if not view.measure:
        yield f"To settle it: {view.instead}"
        return
    yield f"The reading that decides: {view.measure}"
    yield from (f"  {answer.reads}: {answer.means}" for answer in view.answers)
    yield f"  Mind: {view.safety}"
