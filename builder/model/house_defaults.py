"""House defaults: trade judgement that a shop may change in `pinouts/book.yaml`, no standards."""

from __future__ import annotations

from dataclasses import fields
from functools import cached_property

from builder.declaring import fields_of, record
from builder.model.bench_limits import BenchLimits
from builder.model.comeback_odds import ComebackOdds
from builder.model.hand_minutes import HandMinutes
from builder.model.house_default import house_default as _default


@record(slots=False)
class HouseDefaults(HandMinutes, ComebackOdds, BenchLimits):
    """Trade judgement that a shop has changed, printed beside every result it influences.

    One field for each default. Not slotted, so that its hash is worked out once for all caches.
    """

    asleep_min: float = _default(20, "min", "key out and locked before a car counts as asleep")
    asleep_proved_min: float = _default(
        60, "min", "asleep before a constant is proved not to sleep with the network"
    )
    supply_match_v: float = _default(0.3, "V", "how far a constant may read from the battery")
    supply_drop_v: float = _default(0.5, "V", "most a supply may lose under its test load")
    off_max_v: float = _default(0.5, "V", "most a switched wire may show when off")
    resting_battery_v: float = _default(
        12.6, "V", "battery taken for a result of the bay sheet that gives none"
    )
    bridge_leg_min_v: float = _default(5.0, "V", "least bias of a bridged speaker leg")
    bridge_leg_max_v: float = _default(8.0, "V", "most bias of a bridged speaker leg")
    leg_difference_warn_v: float = _default(0.12, "V", "difference between two bridged legs")
    leg_difference_stop_v: float = _default(0.25, "V", "difference between two bridged legs")
    clean_level_v_rms: float = _default(
        9.12,
        "V",
        "clean level taken for an unboosted bridge when nobody measured: (14.4 - 1.5)/√2",
        above=0,
    )
    unloaded_rise_db: float = _default(0.8, "dB", "most that a level rises without its speaker")
    margin_thin_db: float = _default(3.0, "dB", "margin under which a level is called thin")
    parallel_load_ratio: float = _default(
        25.0, "", "converter input ohms over speaker ohms", most=10000
    )
    source_share: float = _default(0.5, "", "share of a turn-on output's rating that may be drawn")
    offset_wake_min_v: float = _default(2.0, "V", "least bias that an offset-wake input needs")
    latch_ah_per_day: float = _default(
        2.0, "Ah/day", "charge a day lost to waking before it is flagged"
    )
    band_gap_ratio: float = _default(
        1.2, "", "high-pass over low-pass corner that leaves a hole", most=100
    )
    bass_swing_db: float = _default(3.0, "dB", "bass loss with volume before a pair is flagged")
    light_shift_v: float = _default(1.0, "V", "change with the lights that marks a dimmer wire")
    biased_leg_min_v: float = _default(1.0, "V", "from here on a speaker leg counts as biased")
    joined_max_ohm: float = _default(
        100.0, "Ω", "less between two wires counts as joined", most=100000
    )
    speaker_dc_min_share: float = _default(0.7, "", "least meter ohms over nominal ohms", most=2)
    speaker_leads_ohm: float = _default(
        0.8, "Ω", "most that wire and test leads add to a speaker's nominal ohms at the radio"
    )
    speaker_dc_max_share: float = _default(1.0, "", "most meter ohms over nominal ohms", most=2)
    data_level_min_v: float = _default(2.3, "V", "least average of a data wire at rest")
    data_level_max_v: float = _default(2.7, "V", "most average of a data wire at rest")
    logic_level_max_v: float = _default(8.0, "V", "under this a turn-on output is logic level")
    pair_spread_cavities: float = _default(3, "cavities", "how far apart two legs of a pair sit")
    wires_confusable_de00: float = _default(
        11.0, "ΔE00", "two wires whose colours differ by less look alike (CIEDE2000)"
    )
    # What a pin of each kind should read; used by the proof of pins.
    crank_alive_min_v: float = _default(6.0, "V", "least a wire that stays alive shows at crank")
    crank_off_max_v: float = _default(1.0, "V", "most a wire that drops out shows at crank")
    slept_max_v: float = _default(1.0, "V", "most a supply shows once it sleeps with the network")
    ground_idle_v: float = _default(0.05, "V", "most a ground may show with nothing drawn")
    ground_crank_v: float = _default(0.2, "V", "most a ground may show at crank")
    ground_drop_v: float = _default(0.1, "V", "most a ground may rise under its test load")
    ground_ohm: float = _default(0.5, "Ω", "most ohms of a ground, test leads taken off")
    speaker_min_ohm: float = _default(1.0, "Ω", "least ohms across a healthy speaker pair")
    speaker_max_ohm: float = _default(8.5, "Ω", "most ohms across a speaker pair, leads included")
    body_open_ohm: float = _default(
        10000.0, "Ω", "ohms to the body that count as not connected", most=1000000
    )
    body_short_ohm: float = _default(1.0, "Ω", "ohms to the body that count as connected")
    silent_leg_max_v: float = _default(0.1, "V", "most bias of an output that has none")
    boosted_leg_max_v: float = _default(14.0, "V", "most bias of a leg of a factory amplifier")
    line_bias_min_v: float = _default(2.0, "V", "least bias of a balanced line leg")
    line_bias_max_v: float = _default(7.5, "V", "most bias of a balanced line leg")
    line_max_v_rms: float = _default(5.0, "V", "most signal of a balanced line pair")
    turn_on_min_v: float = _default(9.0, "V", "least a 12 V turn-on output shows when on")
    logic_on_min_v: float = _default(2.8, "V", "least a logic-level turn-on output shows when on")
    logic_on_max_v: float = _default(5.5, "V", "most a logic-level turn-on output shows when on")
    illumination_min_v: float = _default(
        2.0, "V", "least a steady illumination feed shows when lit"
    )
    pulse_average_min_v: float = _default(0.5, "V", "least average of a pulsed illumination feed")
    data_high_min_v: float = _default(2.4, "V", "least average of the high wire of a data pair")
    data_high_max_v: float = _default(3.6, "V", "most average of the high wire of a data pair")
    data_low_min_v: float = _default(1.4, "V", "least average of the low wire of a data pair")
    data_low_max_v: float = _default(2.6, "V", "most average of the low wire of a data pair")
    data_pair_min_ohm: float = _default(
        54.0, "Ω", "least ohms across a data pair, both ends joined", most=10000
    )
    data_pair_max_ohm: float = _default(
        130.0, "Ω", "most ohms across a data pair, one end open", most=10000
    )
    data_single_min_v: float = _default(6.0, "V", "least average of a single data wire at work")
    data_single_max_v: float = _default(11.0, "V", "most average of a single data wire at work")
    camera_min_v: float = _default(5.0, "V", "least a camera supply shows when on")
    camera_max_v: float = _default(8.0, "V", "most a camera supply shows when on")
    microphone_min_v: float = _default(2.0, "V", "least bias of a microphone wire")
    microphone_max_v: float = _default(9.0, "V", "most bias of a microphone wire")
    wheel_keys_min_v: float = _default(2.7, "V", "least a wheel-key wire shows, no key pressed")
    wheel_keys_max_v: float = _default(5.3, "V", "most a wheel-key wire shows, no key pressed")
    # How much a piece of evidence weighs; 1 would be certainty.
    weight_full: float = _default(0.80, "", "weight of readings in every defining state")
    weight_job: float = _default(0.60, "", "weight of a job on another car that held")
    weight_part: float = _default(0.55, "", "weight of readings in some defining states")
    weight_paper: float = _default(0.40, "", "weight of a printed diagram or plate")
    weight_colour: float = _default(0.20, "", "weight of a wire colour or position")
    weight_told: float = _default(0.10, "", "weight of hearsay")
    cap_unknown_face: float = _default(0.40, "", "most that readings of an unknown face may weigh")
    cap_unmeasured: float = _default(0.50, "", "highest score of a pin that nobody measured")
    cap_one_contributor: float = _default(0.85, "", "highest score that one contributor can give")
    far_factor: float = _default(0.7, "", "taken off for years or trims nobody measured")

    # Power, fuses, leads and cutting of a whole job.
    charging_v: float = _default(
        13.8, "V", "supply taken at an amplifier while the engine runs", above=0
    )
    class_d_efficiency: float = _default(
        0.8, "", "power out over power in of a class D amplifier nobody measured", above=0
    )
    class_ab_efficiency: float = _default(
        0.55, "", "power out over power in of a class AB amplifier nobody measured", above=0
    )
    music_divisor_heavy: float = _default(
        3.0, "", "full current over the average current of heavy music", least=1, most=1000
    )
    music_divisor_light: float = _default(
        8.0, "", "full current over the average current of light music", least=1, most=1000
    )
    hot_conductor_c: float = _default(
        40.0, "°C", "conductor temperature at which supply drops are computed"
    )
    joint_ohm: float = _default(
        0.0015, "Ω", "all joints of a supply path together, counted once a path", most=1
    )
    supply_path_drop_v: float = _default(
        0.5, "V", "most an amplifier's supply path may lose, out and return"
    )
    cca_resistance_factor: float = _default(
        1.6, "", "resistance of copper-clad aluminium over copper of that size", least=1, most=10
    )
    cca_fuse_factor: float = _default(
        0.65, "", "fuse ceiling of copper-clad aluminium over copper of that size", above=0
    )
    fuse_ceiling_awg_22_a: float = _default(3.0, "A", "largest fuse before a 22 AWG copper wire")
    fuse_ceiling_awg_20_a: float = _default(5.0, "A", "largest fuse before a 20 AWG copper wire")
    fuse_ceiling_awg_18_a: float = _default(7.5, "A", "largest fuse before a 18 AWG copper wire")
    fuse_ceiling_awg_16_a: float = _default(10.0, "A", "largest fuse before a 16 AWG copper wire")
    fuse_ceiling_awg_14_a: float = _default(15.0, "A", "largest fuse before a 14 AWG copper wire")
    fuse_ceiling_awg_12_a: float = _default(20.0, "A", "largest fuse before a 12 AWG copper wire")
    fuse_ceiling_awg_10_a: float = _default(30.0, "A", "largest fuse before a 10 AWG copper wire")
    fuse_ceiling_awg_8_a: float = _default(50.0, "A", "largest fuse before a 8 AWG copper wire")
    fuse_ceiling_awg_6_a: float = _default(70.0, "A", "largest fuse before a 6 AWG copper wire")
    fuse_ceiling_awg_4_a: float = _default(100.0, "A", "largest fuse before a 4 AWG copper wire")
    fuse_ceiling_awg_2_a: float = _default(140.0, "A", "largest fuse before a 2 AWG copper wire")
    fuse_ceiling_awg_1_0_a: float = _default(
        195.0, "A", "largest fuse before a 1/0 AWG copper wire"
    )
    fuse_distance_m: float = _default(0.45, "m", "most wire between the battery and the main fuse")
    radio_fuse_share: float = _default(0.2, "", "share of the radio's fuse that a tap may take")
    ground_lead_max_m: float = _default(0.5, "m", "longest ground lead of an amplifier")
    alternator_idle_share: float = _default(
        0.55, "", "share of an alternator's rating left at hot idle", above=0
    )
    alternator_cruise_share: float = _default(
        0.85, "", "share of an alternator's rating left at 2000 r/min", above=0
    )
    listening_share: float = _default(0.5, "", "share of the battery for listening, engine off")
    agm_listening_share: float = _default(0.6, "", "the same of a battery with glass mats")
    lithium_listening_share: float = _default(0.8, "", "the same of a lithium battery")
    battery_loss_a_year: float = _default(0.05, "", "share of its capacity lost in a year")
    charge_a_per_ah: float = _default(0.2, "A/Ah", "most that an ampere-hour takes in charging")
    ground_apart_v: float = _default(0.05, "V", "most between two grounds with loud music")
    device_asleep_ma: float = _default(2.5, "mA", "draw asleep of a device whose record says none")
    parked_increase_ma: float = _default(5.0, "mA", "most added to the parked draw by few devices")
    parked_share: float = _default(0.4, "", "share of the battery that parking may use")
    hold_up_margin_s: float = _default(0.15, "s", "added to a measured dip that is held over")
    hold_up_short_share: float = _default(0.2, "", "most that a capacitor lacks", most=0.9)
    hold_up_diode_v: float = _default(0.4, "V", "lost in the diode before a hold-up capacitor")
    hold_up_charge_ohm: float = _default(
        47.0, "Ω", "resistor through which a hold-up capacitor charges", above=0, most=100000
    )
    lead_loss_max_db: float = _default(0.5, "dB", "most level a new speaker lead may cost")
    sub_lead_loss_max_db: float = _default(0.25, "dB", "most level a new subwoofer lead may cost")
    sub_damping_min: float = _default(20.0, "", "least damping factor at a subwoofer", most=10000)
    amplifier_output_ohm: float = _default(
        0.04, "Ω", "amplifier output resistance", above=0, most=10
    )
    line_target_share: float = _default(0.9, "", "share of the line limit a gain is set to")
    sensitivity_room: float = _default(
        1.12, "", "least line level over the amplifier's least sensitivity", most=100
    )
    overlap_db: float = _default(
        5.0, "dB", "gain overlap when one is wanted; the level of the overlap test tone"
    )
    cut_slack_share: float = _default(0.1, "", "added to a route for its bends", most=2)
    cut_end_m: float = _default(0.3, "m", "added at each end of a cut length")
    line_lead_slack_m: float = _default(0.3, "m", "added before a line lead is chosen")
    undecided_slack_m: float = _default(0.5, "m", "not used any more; books that set it stay valid")
    tie_spacing_m: float = _default(0.25, "m", "cable for each tie", above=0)
    spare_share: float = _default(0.1, "", "spare parts on a pick list", most=10)
    control_fuse_a: float = _default(1.0, "A", "fuse at the tap of a control wire", above=0)
    beside_m: float = _default(0.5, "m", "wire between devices side by side", above=0)
    amplifier_input_ohm: float = _default(
        10000.0, "Ω", "amplifier line input not on record", above=0, most=10000000
    )

    # What a job that nobody has written yet is sketched with.
    sketch_speaker_ohm: float = _default(
        4.0, "Ω", "sketched factory speaker whose ohms nobody recorded", least=0.1
    )
    sketch_speaker_w: float = _default(50.0, "W", "what a sketched speaker takes", least=0.1)
    sketch_route_m: float = _default(
        5.0, "m", "sketched way from the radio to an amplifier", least=0.1
    )
    sketch_sub_lead_m: float = _default(
        1.5, "m", "sketched lead from an amplifier to a subwoofer", least=0.1
    )
    sketch_supply_lead_m: float = _default(
        5.5, "m", "sketched supply lead of a car whose record gives none", least=0.1
    )
    sketch_branch_m: float = _default(
        0.5, "m", "sketched lead from a distribution block to an amplifier", least=0.1
    )

    def __hash__(self) -> int:
        """The hash of all values, kept after the first time."""
        return self._hash

    @cached_property
    def _hash(self) -> int:
        return hash(tuple(getattr(self, each.name) for each in fields(self)))

    @classmethod
    def described(cls) -> list[tuple[str, float, str, str]]:
        """Every default as (name, value, unit, what it is)."""
        return [
            (each.key, each.spec.examples[0], each.spec.unit, each.spec.label)
            for each in fields_of(cls)
        ]
