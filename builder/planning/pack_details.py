"""Details of a work pack: levels, gains, turn-on loads, hold-up, supply, shortcomings."""

from __future__ import annotations

from builder.declaring import answer, figure, listed, part, text, word
from builder.model.job.speakers import channel_name
from builder.model.words import Channel, FuseShape
from builder.planning.plan import Reason
from builder.planning.words import Correction, FlagKind, LadderStage, LevelBasis, LimitedBy


@answer
class LevelRung:
    """One step of the level ladder: what is there, what it may be, how far it is from that."""

    name: LadderStage = word("Where.")
    v_rms: float = figure("What is there.", "V", above=0)
    max_v_rms: float = figure("What may be there.", "V", above=0)
    margin_db: float = figure("How far it is from that.", "dB")


@answer
class GainSetting:
    """One speaker's gain, in the order of setting; its figures stand in the chain of that name."""

    speaker: str = text("The job's name of the speaker.")
    channel: Channel = word("The factory channel of the speaker.")
    amplifier: str = text("The job's name of the amplifier.")
    amplifier_channel: int = figure("Its channel, counted from 1.", "", least=1)
    rungs: tuple[LevelRung, ...] = listed("The level ladder.")
    bridged_with: int | None = figure(
        "The channel that is bridged with it, or null.", "", least=2, default=None,
    )  # fmt: skip

    @property
    def channel_name(self) -> str:
        """The channel as its amplifier's terminals are called: "1", bridged "1+2"."""
        return channel_name(self.amplifier_channel, self.bridged_with)


@answer
class TurnOnDraw:
    """What hangs on one turn-on output. Capacity and share are None when not recorded."""

    output: str = text("The output.", "A.9", "F14", "turn-on output of CVN-6S")
    feeds: tuple[str, ...] = listed("What it switches.")
    draw_ma: float = figure("What they draw.", "mA", least=0)
    capacity_ma: float | None = figure("What it can give, when recorded.", "mA", least=0)
    share: float | None = figure("The one over the other.", "", least=0)
    limit: str = text(
        "What sets that, where it is not the output itself.", "the car's own fuse there",
        default="",
    )  # fmt: skip


@answer
class HoldUpPart:
    """The capacitor that carries the turn-on over a restart, and the resistor that charges it."""

    needed_uf: float = figure("By calculation.", "µF", above=0)
    capacitor_uf: float = figure("The next value made.", "µF", above=0)
    charge_ohm: float = figure("Through this it charges.", "Ω", above=0)
    held_s: float = figure("The dip and the margin.", "s", above=0)
    from_v: float = figure("Before the dip.", "V", above=0)
    threshold_v: float = figure("At this an input lets go.", "V", above=0)
    inrush_a: float = figure("Through the resistor at first.", "A", above=0)
    where: str = text(
        "The conductor that it hangs on, and whose inputs alone it carries.", default="",
    )  # fmt: skip
    least_v: float | None = figure(
        "Charged to less than this it does not hold that long.", "V", above=0, default=None
    )
    after_s: float | None = figure(
        "So long it keeps what it feeds on once that is switched off.", "s", above=0, default=None
    )


@answer
class PackFlag:
    """A shortcoming of the job as values for a rule. `stops`: no plan is given while it stands.

    `value` and `limit` share `unit` and are None where there is nothing to compare.
    """

    kind: FlagKind = word("What is wrong.")
    where: str = text("Where.")
    says: str = text("In words.")
    value: float | None = figure("What is, in `unit`.", "", default=None)
    limit: float | None = figure("What may be, in `unit`.", "", default=None)
    unit: str = text("The unit of both, or empty.", default="")
    stops: bool = word("Whether no plan is given while it stands.", default=False)


@answer
class LevelChain:
    """One speaker's sound from radio to amplifier, with margins. None where not worked out."""

    speaker: str = text("The job's name of the speaker.")
    channels: tuple[Channel, ...] = listed("The factory channels it plays.")
    source_v_rms: float = figure("The loudest of its sources.", "V", above=0)
    source_basis: LevelBasis = word("Where that comes from.")
    pad_ohm_per_leg: float | None = figure("The resistor in each leg.", "Ω", above=0)
    converter_margin_db: float = figure("The least margin of its sources.", "dB")
    sources_summed: int = figure(
        "Sources of one content added in the converter: 2 where two are joined, else 1.", "",
        least=1,
    )  # fmt: skip
    converter_target_v_rms: float | None = figure("The line level.", "V", above=0)
    converter_gain: float | None = figure("Line volts over source volts.", "", above=0)
    gain_min: float = figure("The converter's least gain.", "", least=0)
    gain_max: float = figure("The converter's most gain.", "", least=0)
    amplifier_min_v_rms: float = figure(
        "The least the amplifier needs, at each of the inputs that it sums.", "V", least=0,
    )  # fmt: skip
    amplifier_max_v_rms: float = figure(
        "The most the amplifier takes, at each of the inputs that it sums.", "V", least=0,
    )  # fmt: skip
    set_v_rms: float = figure("What the gain is set to, at the speaker: never more.", "V", above=0)
    set_w: float = figure("The power of that.", "W", above=0)
    limited_by: LimitedBy = word("What sets the limit.")
    tone_hz: str = text("The test tone, or its range, in hertz.", "40 to 50", "1000")
    tone_v_rms: float = figure("What the meter reads with the tone of `tone_note`.", "V", above=0)
    tone_note: str = text("Tone, its level and the overlap, in words.")
    because: str = text("How it was found.")
    load_ohm: float | None = figure("What the amplifier channel sees.", "Ω", above=0, default=None)
    tone_low_hz: float | None = figure("The lowest test tone.", "Hz", above=0, default=None)
    tone_high_hz: float | None = figure("The highest test tone.", "Hz", above=0, default=None)
    line_loss_db: float | None = figure(
        "What the line output loses with every input joined to it; null where its own resistance "
        "is not recorded.", "dB", least=0, default=None,
    )  # fmt: skip
    loaded_v_rms: float | None = figure(
        "The line level with every input joined, which is what the amplifier gets.", "V", above=0,
        default=None,
    )  # fmt: skip
    # A subwoofer whose pair has a bass table; None and "unknown" where nobody measured it.
    tone_source_v_rms: float | None = figure(
        "What the pair itself gives at a subwoofer's tone, where its bass was measured.",
        "V", above=0, default=None,
    )  # fmt: skip
    bass_db: float | None = figure(
        "That against 200 Hz, at the volume step used; negative is a loss.", "dB", default=None,
    )  # fmt: skip
    correction: Correction = word(
        "The converter's bass correction as it will be used; unknown where the bass was not "
        "measured.", default="unknown",
    )  # fmt: skip
    correction_off_line_v_rms: float | None = figure(
        "What the line output reads with the correction off; null where it is not on.",
        "V", above=0, default=None,
    )  # fmt: skip
    correction_off_tone_v_rms: float | None = figure(
        "What the gain's meter reads with the correction off; null where it is not on.",
        "V", above=0, default=None,
    )  # fmt: skip


@answer
class SupplyRun:
    """One supply conductor: trunk, ground return or branch."""

    name: str = text("What it is: the supply of an amplifier or of the block, or a branch.")
    current_a: float = figure("Current at full power.", "A", above=0)
    fuse_a: float | None = figure("Its fuse; null when no standard size fits.", "A", above=0)
    conductor: str = text("Size and metal.", "4 AWG copper")
    length_m: float = figure("Out and return together.", "m", above=0)
    drop_v: float = figure("Lost in this run.", "V", least=0)
    cumulative_drop_v: float = figure("Lost from the battery to its end.", "V", least=0)
    next_thicker: str | None = text("The next thicker conductor, for comfort.")
    next_thicker_drop_v: float | None = figure(
        "What would be lost to its end with that.", "V", least=0,
    )  # fmt: skip
    return_drop_v: float = figure(
        "The part of this run's volts that its way back loses.", "V", least=0, default=0.0,
    )  # fmt: skip


@answer
class PowerSheet:
    """The supply of everything added."""

    full_current_a: float = figure("At full power of all channels in use.", "A", above=0)
    music_current_a: float = figure("The average with music.", "A", above=0)
    main_fuse_a: float | None = figure(
        "The main fuse; null when no standard size fits.", "A", above=0,
    )  # fmt: skip
    fuse_family: FuseShape = word("The shape of the main fuse.")
    fuse_to_battery_m: float | None = figure(
        "Wire between battery post and main fuse.", "m", least=0,
    )  # fmt: skip
    reserve_a: float | None = figure("What the car can spare at the worst speed recorded.", "A")
    listening_h: float | None = figure("How long music may play with the engine off.", "h", least=0)
    parked_days: float | None = figure("How long the car may stand.", "d", least=0)
    latch_ah_per_day: float | None = figure(
        "Charge lost a day because the converter stays awake after locking.", "Ah", least=0,
    )  # fmt: skip
    runs: tuple[SupplyRun, ...] = listed("Trunk and branches, or the one run.")
    because: tuple[Reason, ...] = listed("Why.")
    reserve_spare_a: float | None = figure(
        "The same less the music current and what charges a second battery; negative is a "
        "shortage.", "A", default=None,
    )  # fmt: skip
    strap_mohm: float | None = figure(
        "The car's straps and body as they were read; null where nobody did.", "mΩ", default=None,
    )  # fmt: skip
    strap_max_mohm: float | None = figure(
        "The most they may have for the volts allowed; null where the ground is the battery post.",
        "mΩ", default=None,
    )  # fmt: skip
    loop_drop_v: float | None = figure(
        "Lost from the battery and back at full current, straps included; null unread.", "V",
        default=None,
    )  # fmt: skip
    lasts_from: str = text(
        "What the hours are counted from: the battery that feeds the music, as it is accepted, or "
        "empty.", default="",
    )  # fmt: skip
    days_from: str = text(
        "What the days are counted from: the car's battery as it is accepted, or empty.",
        default="",
    )  # fmt: skip
    parked_draw_ma: float | None = figure(
        "The most that the parked car may draw after the work, with which the days are counted; "
        "null where it is not known what it drew before.", "mA", least=0, default=None,
    )  # fmt: skip
    main_fuse_at: str = text(
        "Where the main fuse is mounted, and the wire before it, as measured and allowed.",
        "close to the battery, 0.35 m of wire from its post (at most 0.45 m)", default="",
    )  # fmt: skip
    charging_a: float | None = figure(
        "What charging a second battery takes at most; null without one.", "A", above=0,
        default=None,
    )  # fmt: skip
    link_run: SupplyRun | None = part(
        description="The lead between the car's battery and a second one; null without one.",
        default=None,
    )  # fmt: skip

    @property
    def all_runs(self) -> tuple[SupplyRun, ...]:
        """Every supply conductor that is laid: trunk, branches, the link of a second battery."""
        return (*self.runs, *([] if self.link_run is None else [self.link_run]))

    supply_dip_v: float | None = figure(
        "The lowest the supply was read at while the engine restarts.", "V", default=None,
    )  # fmt: skip
