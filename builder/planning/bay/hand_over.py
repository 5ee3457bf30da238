"""What the customer gets."""

from __future__ import annotations

from builder.figures import shown, span
from builder.model.words import Listening
from builder.planning.bay.kept_lines import sounds_to_keep
from builder.planning.circuit.terminal_names import source_name
from builder.planning.harness.at_plug import LoomUse, looms_of
from builder.planning.levels.loudest_step import FOUND_BY, loudest_step
from builder.planning.pack_details import PowerSheet
from builder.planning.plan import Plan
from builder.planning.turn_on.loads import WAKES_BY_ITSELF
from builder.planning.work_pack import JobParts


def customer_sheet(
    parts: JobParts,
    plan: Plan,
    losses: tuple[str, ...],
    power: PowerSheet | None,
    fuses: tuple[str, ...],
    fitted: tuple[str, ...],
    touched: tuple[str, ...],
) -> tuple[str, ...]:
    """Return what is fitted, what changed, where the fuse is, what it costs standing."""
    lines = [f"Fitted: {', '.join(fitted)}. Asked for: {parts.job.wanted}."]
    lines += [f"What changes: {loss}" for loss in losses] or ["Nothing of the car's own is lost."]
    lines += [loom_line(use) for use in looms_of(parts).values()]
    lines += touched
    lines += _sounds(parts, losses)
    if power is not None and power.main_fuse_a is not None:
        fuse = f"{shown(power.main_fuse_a)} A, {power.main_fuse_at}"
        lines.append(f"Main fuse: {fuse}. {_out(parts, plan)}")
    lines += fuses
    step = loudest_step(parts.vehicle, parts.job)
    said = f"step ____, which the bay finds ({FOUND_BY})" if step is None else f"step {step}"
    lines.append(f"Loudest clean volume: {said}. Beyond it only distortion grows.")
    lines += _battery(plan, power, parts.job.supply.listening)
    lines.append(CALL_THE_SHOP)
    return tuple(lines)


CALL_THE_SHOP = (
    "Something sounds wrong, smells or gets hot: radio and engine off; out of the car if it "
    "smokes. Pull the main fuse, at the place named here, if your hand gets there; take nothing "
    "apart for it: fuses behind a panel, the radio or a seat are the shop's. Call the shop "
    "before you drive."
)
"""The last line of every customer's sheet: a customer reaches few fuses, and the main one is over
nearly all that was added. Common practice, no source."""


def loom_line(use: LoomUse) -> str:
    """Return what the customer is told of a loom."""
    return (
        f"Between the {source_name(use.plug.unit)} and its plug {use.plug.id} sits a loom: no wire "
        "of that plug is cut, and without the loom it goes home as before."
    )


def _out(parts: JobParts, plan: Plan) -> str:
    """What is off without the main fuse: not what the car's own plugs or a battery feed."""
    beside = bool(plan.supplied_at) or plan.turn_on.kind == "data_interface"
    if beside or parts.job.supply.second_battery is not None:
        return (
            "Out, every amplifier is off; what else has a fuse below stays live until that is out."
        )
    return "Out, everything added is off."


def _sounds(parts: JobParts, losses: tuple[str, ...]) -> list[str]:
    """What stays, less what the losses name already."""
    lost = " ".join(losses).lower()
    kept = [each for each in sounds_to_keep(parts) if each.lower() not in lost]
    return [f"As before: {', '.join(kept)}."] if kept else []


MUSIC: dict[Listening, str] = {"heavy": "loud music", "light": "light music"}
"""How loud the hours are counted for: as the job says that the customer listens."""
_LASTS: dict[Listening, str] = {
    "heavy": MUSIC["heavy"] + ": about {}",
    "light": MUSIC["light"] + ": about {}, loud music much less",
}


def _counted(power: PowerSheet) -> str:
    """Which battery the hours and the days are counted from: the same, or each its own."""
    if power.lasts_from == power.days_from:
        return f"Both counted from {power.lasts_from}; a fuller one lasts longer."
    return (
        f"The hours are counted from {power.lasts_from}, the days from {power.days_from}; fuller "
        "ones last longer."
    )


def _battery(plan: Plan, power: PowerSheet | None, loud: Listening) -> list[str]:
    if power is None:
        return []
    lines = []
    if power.listening_h is not None:
        lasts = _LASTS[loud].format(span(power.listening_h))
        lines.append(f"Engine off, {lasts}; then start the engine.")
    if power.parked_days is not None:
        lines.append(
            f"Left standing: about {span(24 * power.parked_days)}, at the most that it may draw "
            f"then, {shown(power.parked_draw_ma)} mA."
        )
    if lines and power.lasts_from:
        lines.append(_counted(power))
    if plan.turn_on.kind in WAKES_BY_ITSELF and power.latch_ah_per_day is not None:
        lines.append(
            f"After each lock it stays awake for a while, {shown(power.latch_ah_per_day, 2)} Ah "
            "a day."
        )
    return lines
