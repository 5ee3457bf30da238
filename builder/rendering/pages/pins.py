"""Pins as a page shows them: what it is, on which wire, how sure, measured by whom."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from markupsafe import Markup

from builder.model.names import (
    CLAIM_NAMES,
    LOAD_NAMES,
    READING_UNITS,
    STATE_NAMES,
    function_name,
)
from builder.model.plugs import Claim, Condition, Fuse, Pin, Plug, Reading, Session
from builder.model.vehicle import Vehicle
from builder.model.words import Function
from builder.proof.house import house_note
from builder.proof.pin_proof import UNGRADED, PinProof, Proofs
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.wire_colours import wire_words
from builder.rendering.pages.attacks import AttackView, attack_view
from builder.rendering.pages.evidence import EvidenceLine, evidence_lines, superseded
from builder.rendering.pages.expected import expected_block
from builder.rendering.pages.old_notes import old_note_words
from builder.rendering.pages.state_strip import StripField, state_strip
from builder.rendering.pages.wording import (
    against_words,
    anchor,
    figure,
    pin_anchor,
    plain,
    size_words,
)


class ReadingView(NamedTuple):
    """One reading in phrases, column by column."""

    state: str
    value: str
    against: str
    battery: str
    detail: str
    who: str
    set_aside: str  # by whom and why, "" while it counts


class ClaimView(NamedTuple):
    """One claim as a sentence, and what superseded it, if anything did."""

    words: str
    set_aside: str


class PinView(NamedTuple):
    """One pin, ready to print."""

    anchor: str
    plug: str
    cavity: str
    does: Function
    function: str
    channel: str
    swatch: Markup
    wire: str
    size: str
    fuse: str
    condition: str
    output: str
    note: str
    proof: PinProof
    expected: Markup
    strip: tuple[StripField, ...]  # what it reads in each state, for its card
    dispute: str  # anchor of the dispute about it, or ""
    evidence: tuple[EvidenceLine, ...]
    readings: tuple[ReadingView, ...]
    claims: tuple[ClaimView, ...]
    old_notes: tuple[str, ...]
    against: AttackView | None  # what speaks against it while it is not called a dispute
    house: str  # the house defaults behind the grade


def pin_views(vehicle: Vehicle, plug: Plug, proofs: Proofs) -> tuple[PinView, ...]:
    """Return the pins of a plug in the order of the record."""
    sessions = {session.id: session for session in vehicle.sessions}
    views = []
    for pin in plug.pins:
        proof = proofs.get(pin.path, UNGRADED)
        place = f"{plug.id}.{pin.cavity}"
        evidence = evidence_lines(vehicle, place, proof)
        gone = superseded(vehicle, place)
        views.append(pin_view(plug, pin, proof, evidence, sessions, gone))
    return tuple(views)


def pin_view(
    plug: Plug,
    pin: Pin,
    proof: PinProof,
    evidence: tuple[EvidenceLine, ...],
    sessions: Mapping[str, Session],
    gone: Mapping[str, str],
) -> PinView:
    """Return one pin as a page shows it; `gone` holds what its resolutions set aside."""
    return PinView(
        pin_anchor(plug.id, pin.cavity),
        plug.id,
        pin.cavity,
        pin.function,
        function_name(pin.function),
        channel_words(pin),
        swatch(pin.wire),
        wire_words(pin.wire),
        size_words(pin.wire),
        fuse_words(pin.fuse),
        condition_words(pin.only_if),
        _output_words(pin),
        pin.note or "",
        proof,
        expected_block(proof.kinds, pin.function, proof.defaults),
        state_strip(proof.kinds),
        anchor("dispute", plug.id, pin.cavity) if proof.dispute else "",
        evidence,
        tuple(reading_view(reading, sessions, gone) for reading in pin.readings),
        tuple(ClaimView(claim_words(claim), gone.get(claim.by, "")) for claim in pin.claims),
        tuple(map(old_note_words, pin.old_notes)),
        attack_view(proof.attack) if proof.attack and not proof.dispute else None,
        house_note(proof.house, proof.defaults),
    )


def channel_words(pin: Pin) -> str:
    """Channel and leg, or nothing."""
    words = [plain(pin.channel)] if pin.channel else []
    words += ["+" if pin.leg == "positive" else "−"] if pin.leg else []
    return " ".join(words)


def fuse_words(fuse: Fuse | None) -> str:
    """Fuse place and rating, or nothing."""
    if fuse is None:
        return ""
    return f"{fuse.place}, {figure(fuse.rating_a, 'A', 'rating not recorded')}"


def condition_words(condition: Condition | None) -> str:
    """The part of the scope a line holds for, or nothing when it holds for all of it."""
    if condition is None:
        return ""
    words = [f"trim {', '.join(condition.trims)}"] if condition.trims else []
    words += [f"option {' or '.join(condition.options_any)}"] if condition.options_any else []
    words += [f"not option {', '.join(condition.options_none)}"] if condition.options_none else []
    return "only with " + "; ".join(words)


def _output_words(pin: Pin) -> str:
    words = []
    if pin.level_v is not None:
        words.append(f"{pin.level_v:g} V output")
    if pin.max_source_ma is not None:
        words.append(f"gives at most {pin.max_source_ma:g} mA")
    return ", ".join(words)


def reading_view(
    reading: Reading, sessions: Mapping[str, Session], gone: Mapping[str, str]
) -> ReadingView:
    """Return a reading in phrases."""
    session = sessions.get(reading.session)
    by = session.by if session else ""
    value = "open" if reading.value is None else f"{reading.value:.10g}"
    return ReadingView(
        STATE_NAMES[reading.state],
        f"{value} {READING_UNITS[reading.quantity]}" if reading.value is not None else value,
        against_words(reading.against),
        figure(reading.battery_v, "V", ""),
        _detail(reading),
        _who(session),
        gone.get(reading.session) or gone.get(by, ""),
    )


def _detail(reading: Reading) -> str:
    words = [LOAD_NAMES[reading.load]] if reading.load != "none" else []
    if reading.minutes is not None:
        words.append(f"after {reading.minutes:g} min")
    if reading.from_v is not None:
        words.append(f"just before {reading.from_v:.10g} V")
    if reading.lasts_s is not None:
        words.append(f"for {reading.lasts_s:.10g} s")
    if reading.volume_step is not None:
        words.append(f"volume step {reading.volume_step}")
    if reading.tone_hz is not None:
        words.append(f"{reading.tone_hz:g} Hz tone")
    if reading.note:
        words.append(reading.note)
    if reading.counted_as:
        words.append(turned_words(reading.counted_as))
    return ", ".join(words)


def turned_words(counted_as: str) -> str:
    """Under which cavity something was filed that is shown at the plug's own."""
    return f"counted on the other face, as cavity {counted_as}"


def _who(session: Session | None) -> str:
    return f"{session.by}, {session.date}" if session else "visit not found"


def claim_words(claim: Claim) -> str:
    """A claim as one sentence."""
    says = [function_name(claim.says), plain(claim.channel or ""), claim.leg or ""]
    source = f" ({claim.source})" if claim.source else ""
    turned = f", {turned_words(claim.counted_as)}" if claim.counted_as else ""
    return (
        f"{claim.by}, {claim.date}, from {CLAIM_NAMES[claim.method]}{source}: "
        f"{' '.join(word for word in says if word)}{turned}"
    )
