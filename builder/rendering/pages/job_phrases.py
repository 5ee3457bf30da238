"""The numbers of a work pack in phrases: levels, supply runs, cuts, speaker leads."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from builder.figures import at_most, read_as, share_percent, shown, span
from builder.model.car import Battery
from builder.model.words import UNKNOWN
from builder.planning.bay.hand_over import MUSIC
from builder.planning.pack_details import HoldUpPart, LevelChain, PowerSheet, TurnOnDraw
from builder.planning.plan import Reason
from builder.planning.power.tables import REFERENCE_C
from builder.planning.sheet_rows import PartLine, SpeakerLead
from builder.planning.turn_on.budget import given_words
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.pages.car_facts import Fact
from builder.rendering.pages.wording import figure, listed, plain


class GainView(NamedTuple):
    """What one speaker's gain is set to, to be filled in beside."""

    speaker: str
    line: str
    loaded: str
    gain: str
    set_to: str
    tone: str
    reads: str
    because: str


class LeadView(NamedTuple):
    """One speaker lead in phrases."""

    speaker: str
    conductor: str
    length: str
    added: str
    existing: str
    whole: str
    damping: str
    current: str


def gain_view(chain: LevelChain) -> GainView:
    """Return the settings of one speaker."""
    return GainView(
        chain.speaker,
        figure(chain.converter_target_v_rms, "V RMS", "not worked out"),
        _loaded(chain),
        _gain(chain),
        f"{at_most(chain.set_v_rms, 'V')} V RMS ({chain.set_w:.4g} W, limited by the "
        f"{chain.limited_by})",
        chain.tone_note,
        f"{at_most(chain.tone_v_rms, 'V')} V",
        chain.because,
    )


def _loaded(chain: LevelChain) -> str:
    """What is left of the line level with every input joined to the output."""
    if chain.loaded_v_rms is None or chain.line_loss_db is None:
        return "the output's own resistance is not recorded"
    return f"{read_as(chain.loaded_v_rms, 'V')} V RMS, {shown(chain.line_loss_db, 3)} dB less"


def gains_because(levels: Sequence[LevelChain]) -> list[tuple[str, str]]:
    """Return the speakers that share a because, and that because."""
    grouped: dict[str, list[str]] = {}
    for chain in levels:
        if chain.because:
            grouped.setdefault(chain.because, []).append(chain.speaker)
    return [(", ".join(speakers), because) for because, speakers in grouped.items()]


def _gain(chain: LevelChain) -> str:
    if chain.converter_gain is None:
        return "not worked out"
    if chain.gain_min == chain.gain_max:
        return f"{shown(chain.converter_gain, 3)}, fixed"
    gain = shown(chain.converter_gain, 3, beside=(chain.gain_min, chain.gain_max))
    return f"{gain} ({shown(chain.gain_min)} to {shown(chain.gain_max)})"


def power_facts(power: PowerSheet, parts: JobParts) -> list[Fact]:
    """Return where the supply comes from, what it takes and what is left, as label and phrase."""
    main = figure(power.main_fuse_a, "A", "no standard size fits")
    heard = parts.job.supply.listening
    return [
        Fact("The car's battery", _battery(parts.vehicle.power.battery)),
        Fact("Main fuse", f"{main}, {plain(power.fuse_family)}, {power.main_fuse_at}"),
        Fact("The car's straps and body", _straps(power)),
        Fact("Full power, all channels", f"{power.full_current_a:.1f} A"),
        Fact("With music", f"{power.music_current_a:.1f} A"),
        Fact("The car can spare", _rounded(power.reserve_a, "A")),
        *_charging(power),
        Fact("Lowest supply at a restart", _rounded(power.supply_dip_v, "V", otherwise="not read")),
        Fact(f"{MUSIC[heard].capitalize()} with the engine off", _lasts(power.listening_h)),
        Fact("Hours counted from", power.lasts_from or "not worked out"),
        Fact("Parked until the battery is low", _parked(power)),
        Fact("Days counted from", power.days_from or "not worked out"),
        Fact("Lost to waking, a day", _rounded(power.latch_ah_per_day, "Ah", 2)),
    ]


def _battery(battery: Battery) -> str:
    """Where it is, and what it holds."""
    where = "where is not recorded" if battery.location == UNKNOWN else battery.location
    return f"{where}; {figure(battery.capacity_ah, 'Ah', 'its capacity is not recorded')}"


def _charging(power: PowerSheet) -> list[Fact]:
    """What is left while music plays; a second battery takes its part of it."""
    left = _spare(power.reserve_spare_a)
    if power.charging_a is None:
        return [Fact("Left with music playing", left)]
    return [
        Fact("Charging the second battery", f"{power.charging_a:.1f} A"),
        Fact("Left with music and that charging", left),
    ]


def _parked(power: PowerSheet) -> str:
    lasts = _lasts(power.parked_days, 24)
    return lasts if power.parked_days is None else f"{lasts} at {shown(power.parked_draw_ma)} mA"


def _straps(power: PowerSheet) -> str:
    """What returns through the body: as read, or how much it may be before cable is bought."""
    if power.strap_max_mohm is None:
        return "not in the loop: the ground is the battery's own post"
    if power.strap_mohm is None or power.loop_drop_v is None:
        most = at_most(power.strap_max_mohm, "mΩ")
        return f"not read; at most {most} mΩ, read before cable is bought"
    return f"{shown(power.strap_mohm, 2)} mΩ; {shown(power.loop_drop_v, 3)} V in the whole loop"


def _lasts(time: float | None, hours: float = 1) -> str:
    return "not worked out" if time is None else span(time * hours)


def _spare(amperes: float | None) -> str:
    if amperes is None:
        return "not worked out"
    return f"{shown(abs(amperes), 1, beside=0)} A {'short' if amperes < 0 else 'to spare'}"


def draw_view(draw: TurnOnDraw) -> tuple[str, str, str, str]:
    """Return a turn-on output: where, what hangs on it, what it gives, and the share in use."""
    capacity = draw.capacity_ma
    gives = "a current not recorded" if capacity is None else given_words(draw, capacity)
    return (
        draw.output,
        listed(draw.feeds, "nothing"),
        f"{draw.draw_ma:g} mA of {gives}",
        "not known" if draw.share is None else share_percent(draw.share),
    )


def hold_up_words(part: HoldUpPart) -> str:
    """Return the hold-up capacitor of the turn-on as a sentence."""
    return (
        f"{shown(part.capacitor_uf)} µF ({shown(part.needed_uf, 0, beside=part.capacitor_uf)} µF "
        f"needed) hold {part.where or 'the turn-on'} for {shown(part.held_s)} s, from "
        f"{shown(part.from_v)} V down to {shown(part.threshold_v, beside=part.from_v)} V; charged "
        f"through {shown(part.charge_ohm)} Ω, at most {shown(part.inrush_a, 2)} A."
    )


def _rounded(
    value: float | None, unit: str, places: int = 1, otherwise: str = "not worked out"
) -> str:
    return otherwise if value is None else f"{shown(value, places)} {unit}"


LEADS = f"Speaker leads, with their copper at {REFERENCE_C:g} °C"
"""The title of the leads: what a supply loses is worked out at the house's warmer conductor."""


def lead_view(lead: SpeakerLead) -> LeadView:
    """Return one speaker lead."""
    return LeadView(
        lead.speaker,
        lead.conductor,
        figure(lead.length_m, "m"),
        _db(lead.added_loss_db),
        _db(lead.existing_loss_db),
        _db(lead.whole_loss_db),
        f"{lead.damping:.1f}",
        f"{read_as(lead.music_current_a, 'A')} A",
    )


def _db(value: float) -> str:
    return f"{value:.2f} dB".replace("-", "−")


def quantity_words(part: PartLine) -> str:
    """Return how many of a part, with its unit."""
    return f"{part.quantity:.4g} {part.unit}".rstrip()


def treatments_by_because(pack: WorkPack) -> list[tuple[str, str]]:
    """Return the pairs that are treated alike, and why; what they share is said once, last."""
    alike: dict[tuple[str, str], tuple[list[str], list[str]]] = {}
    for reason in pack.treatments:
        pair, _, done = reason.decision.rpartition(": ")
        own, _, shared = reason.because.rpartition("; ")
        pairs, owns = alike.setdefault((done, shared), ([], []))
        pairs.append(plain(pair))
        owns.append(own)
    return [
        (f"{', '.join(pairs)}: {done}", "; ".join(filter(None, [*dict.fromkeys(owns), shared])))
        for (done, shared), (pairs, owns) in alike.items()
    ]


def reasons_by_decision(pack: WorkPack) -> list[tuple[str, str, list[str]]]:
    """Return decision, source and every because of it, in the order of the work."""
    power: Sequence[Reason] = pack.power.because if pack.power else ()
    grouped: dict[tuple[str, str], list[str]] = {}
    for reason in (*pack.treatments, *pack.plan.because, *pack.because, *power):
        said = grouped.setdefault((reason.decision, reason.source), [])
        if reason.because not in said:
            said.append(reason.because)
    return [(decision, source, said) for (decision, source), said in grouped.items()]
