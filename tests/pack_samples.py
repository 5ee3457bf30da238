"""Work packs of invented jobs, written out by hand, for the tests of pages and drawings."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from shipped_book import FOLDERS_OF_PARTS
from shipped_cars import car

from builder.loading import load_file
from builder.model.book import Shelf
from builder.model.job import DrivenBy, Job, JobAmplifier, JobCar, JobSpeaker, JobSupply, Told
from builder.model.parts import Cable
from builder.model.words import State
from builder.parsing import parse_record
from builder.planning.bay.ids import speakable
from builder.planning.cables.allocation import conductors_of_cable
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.pack_details import (
    GainSetting,
    LevelChain,
    LevelRung,
    PowerSheet,
    SupplyRun,
    TurnOnDraw,
)
from builder.planning.plan import Insulated, Reason
from builder.planning.sheet_rows import (
    ConductorRow,
    CutRow,
    Label,
    PartLine,
    SpeakerLead,
    Step,
)
from builder.planning.words import Phase
from builder.planning.work_pack import BayTest, JobParts, WorkPack

PINOUTS = Path(__file__).resolve().parents[1] / "pinouts"


def record(path: str) -> Any:
    """A record of the shipped book."""
    data = load_file(PINOUTS / path, path).data
    assert data is not None
    return parse_record(path.split("/", maxsplit=1)[0].removesuffix("s"), data)


def shelf() -> Shelf:
    """All parts of the shipped book."""
    kinds = FOLDERS_OF_PARTS
    found = {
        kind: {
            one.id: one
            for file in sorted((PINOUTS / kind).glob("*.yaml"))
            if file.stem != "TEMPLATE"
            for one in [record(f"{kind}/{file.name}")]
        }
        for kind in kinds
    }
    return Shelf(**found, vehicle_ids=frozenset())


def speaker(at: int, channel: Any, watts: float = 50.0) -> JobSpeaker:
    return JobSpeaker(
        name=f"{channel.replace('-', ' ')} door",
        channel=channel,
        nominal_ohm=4.0,
        rated_w_rms=watts,
        existing=True,
        driven_by=DrivenBy(amplifier="doors", channel=at),
        plays=(channel,),
        path=("speakers", at - 1),
    )


DOORS = ("front-left", "front-right", "rear-left", "rear-right")


def job(**changed: Any) -> Job:
    """A job that sends four doors through a new amplifier."""
    supply = JobSupply(
        supply_lead_m=4.2, ground_lead_m=0.4, fuse_to_battery_m=0.3, fuse_family="maxi",
        material="copper", ground_point="body_side", listening="heavy", locks_per_day=6.0,
        wake_hold_min=12.0, idle_a=1.1, parked_ma=30.0, path=("supply",),
    )  # fmt: skip
    given: dict[str, Any] = {
        "id": "leto-four-doors",
        "data": "invented",
        "title": "four doors, louder and clean",
        "vehicle": "brantmoor-leto-2019-wagon-mid",
        "car": JobCar(
            tag="k7m2",
            year=2019,
            built="2019-04",
            trim="mid",
            answers=(Told(question="Finned box behind the trim?", answer="no"),),
        ),
        "wanted": "more punch in the doors, the warning for the lights as it was",
        "protect": ("lights-left-on warning",),
        "converter": "cvn-4a",
        "converter_place": "under the rear bench",
        "amplifiers": (
            JobAmplifier(
                name="doors", part="amn-4", place="under the rear bench", path=("amplifiers", 0)
            ),
        ),
        "speakers": tuple(speaker(at, channel) for at, channel in enumerate(DOORS, 1)),
        "pad": "auto",
        "treatments": None,
        "routes": (),
        "cables": ("five-core-18",),
        "supply": supply,
        "other_turn_on_loads": (),
        "accept": (),
        "results": (),
        "follow_up": (),
        "edited": "2024-06-01",
    }
    return Job(**(given | changed))


def job_parts(**changed: Any) -> JobParts:
    """The job with the records it names."""
    parts = shelf()
    given: dict[str, Any] = {
        "job": job(),
        "vehicle": car("brantmoor-leto-2019-wagon-mid"),
        "converter": parts.converters["cvn-4a"],
        "amplifiers": {"doors": parts.amplifiers["amn-4"]},
        "cables": (parts.cables["five-core-18"],),
        "shelf": parts,
    }
    return JobParts(**(given | changed))


def chain(name: str, channel: str, **changed: Any) -> LevelChain:
    given: dict[str, Any] = {
        "speaker": name,
        "channels": (channel,),
        "source_v_rms": 8.94,
        "source_basis": "label",
        "pad_ohm_per_leg": None,
        "converter_margin_db": 6.99,
        "sources_summed": 1,
        "converter_target_v_rms": 3.6,
        "converter_gain": 0.402,
        "gain_min": 0.05,
        "gain_max": 1.0,
        "amplifier_min_v_rms": 0.25,
        "amplifier_max_v_rms": 4.0,
        "set_v_rms": 14.14,
        "set_w": 50.0,
        "limited_by": "speaker",
        "tone_hz": "1000",
        "tone_v_rms": 14.14,
        "tone_note": "play 1 kHz at full scale (0 dBFS), read 14.1 V",
        "because": "the amplifier gives 60 W into 4 Ω, the speaker takes 50 W",
    }
    return LevelChain(**(given | changed))


RUNGS = (
    LevelRung("converter input", 8.94, 20.0, 6.99),
    LevelRung("converter output", 3.6, 5.0, 2.85),
    LevelRung("amplifier input", 3.6, 4.0, 0.915),
    LevelRung("speaker", 14.14, 15.49, 0.79),
)


def gain(at: int, name: str, channel: str) -> GainSetting:
    return GainSetting(name, channel, "doors", at, RUNGS)


def run(name: str, **changed: Any) -> SupplyRun:
    given: dict[str, Any] = {
        "name": name,
        "current_a": 31.6,
        "fuse_a": 40.0,
        "conductor": "8 AWG copper",
        "length_m": 4.6,
        "drop_v": 0.371,
        "cumulative_drop_v": 0.371,
        "next_thicker": "6 AWG copper",
        "next_thicker_drop_v": 0.251,
    }
    return SupplyRun(**(given | changed))


def power(*runs: SupplyRun, **changed: Any) -> PowerSheet:
    given: dict[str, Any] = {
        "full_current_a": 31.6,
        "music_current_a": 10.5,
        "main_fuse_a": 40.0,
        "fuse_family": "maxi",
        "fuse_to_battery_m": 0.3,
        "main_fuse_at": "close to the battery, 0.3 m of wire from its post (at most 0.45 m)",
        "reserve_a": 17.0,
        "listening_h": 2.4,
        "parked_days": 38.9,
        "latch_ah_per_day": 1.32,
        "runs": runs or (run("supply of doors"),),
        "because": (
            Reason(
                "main fuse 40 A",
                "the smallest standard size not below the 40 A fused on the amplifier",
                "common practice, no source",
            ),
            Reason(
                "8 AWG copper",
                "10 AWG is fused for 30 A at most (house default)",
                "chosen by this project",
            ),
        ),
    }
    return PowerSheet(**(given | changed))


BRANCHED = (
    run(
        "supply of distribution block",
        current_a=140.3,
        fuse_a=175.0,
        conductor="1/0 AWG copper",
        drop_v=0.415,
    ),
    run(
        "branch to sub",
        current_a=108.7,
        fuse_a=125.0,
        conductor="2 AWG copper",
        length_m=0.8,
        drop_v=0.048,
        cumulative_drop_v=0.463,
    ),
    run("branch to doors", length_m=0.8, drop_v=0.056, cumulative_drop_v=0.471, next_thicker=None),
)


def jacket(number: int, cable: Cable, purposes: tuple[str, ...], kind: str) -> list[ConductorRow]:
    """A jacket whose first conductors have these purposes; the others are spare."""
    rows = []
    for at, (place, wire) in enumerate(conductors_of_cable(cable)):
        words = f"{wire.base}/{wire.stripe}" if wire.stripe else wire.base
        used = at < len(purposes) and purposes[at] != ""
        said = purposes[at] if used else "spare: insulate at both ends"
        ends = ("radio", "doors") if kind == "signal" else ("doors", "radio")
        rows.append(
            ConductorRow(
                number,
                cable.id,
                place,
                words,
                said,
                kind if used else "spare",
                *ends,
                f"cable {number}",
                *ends,
            )
        )
    return rows


def conductors(cable: Cable) -> tuple[ConductorRow, ...]:
    """Two jackets out and two back, for four doors."""
    rows: list[ConductorRow] = []
    for number, kind, names in (
        (1, "signal", ("front left", "front right")),
        (2, "signal", ("rear left", "rear right")),
        (3, "amplified", ("front left", "front right")),
        (4, "amplified", ("rear left", "rear right")),
    ):
        purposes = tuple(f"{name} {sign} {kind}" for name in names for sign in "+−")
        if number == 1:
            purposes += ("turn-on to the converter",)
        rows += jacket(number, cable, purposes, kind)
    return tuple(rows)


def labels() -> tuple[Label, ...]:
    return tuple(
        Label(f"cable {at}", end, f"cable {at}, {kind}: from {start}, to {stop}", at)
        for at, kind, start, stop in (
            (1, "signal", "radio", "doors"),
            (2, "signal", "radio", "doors"),
            (3, "amplified", "doors", "radio"),
            (4, "amplified", "doors", "radio"),
        )
        for end in ("within 50 mm of the radio end", "within 50 mm of the doors end", "mid-way")
    )


def bay(number: int, phase: Phase, what: str, state: State = "run", **band: Any) -> BayTest:
    given = {"quantity": "dc_v", "low": None, "high": None, "unit": "V DC"} | band
    return BayTest(
        speakable(what, state), phase, what, state, why="so that it is known", reading=None,
        number=number, **given,
    )  # fmt: skip


TESTS = (
    bay(1, "before", "current drawn from the battery", "asleep", unit="mA", high=50.0),
    bay(2, "before", "battery at rest", "asleep", low=12.2),
    bay(3, "before", "A.1 constant against battery negative", "asleep", low=12.2, high=12.8),
    bay(4, "before", "A.8 amplifier turn-on, radio playing", "radio_on_zero", low=9.0),
    bay(5, "build", "main fuse out: power lead to the body", "battery_off", unit="Ω", low=100000.0),
    *(
        bay(6 + at, "build", f"{name.replace('-', ' ')} pair at the amplifier end", "unplugged",
            unit="Ω", low=2.8, high=4.4)
        for at, name in enumerate(DOORS)
    ),
    bay(10, "bench", "turn-on at the amplifier", "radio_on_zero", low=10.5),
    bay(11, "bench", "turn-on at the amplifier", "asleep", high=0.5),
    bay(12, "bench", "converter output, volume 0", "radio_on_zero", unit="mV AC", high=5.0),
    *(
        bay(13 + at, "bench", f"{name.replace('-', ' ')} at the speaker, 1 kHz 0 dBFS",
            "radio_on_tone", unit="V AC", low=12.0, high=14.1)
        for at, name in enumerate(DOORS)
    ),
    bay(17, "bench", "fader to the front: only the front doors play", "radio_on_tone", unit=""),
    bay(18, "close", "lights-left-on warning is heard", "door_open", unit=""),
    bay(19, "close", "three restarts, no dropout over", "engine", unit="s", high=0.5),
    bay(20, "close", "current drawn from the battery, more than before", "asleep", unit="mA",
        high=5.0),
)  # fmt: skip


def step(number: int, phase: Phase, does: str, gate: str, blocked: str) -> Step:
    return Step(number, phase, gate, blocked, "", (), (), does)


STEPS = (
    step(
        1, "before", "Photograph the dash with its lamps lit and note faults and presets.", "", ""
    ),
    step(2, "before", "Take tests 1 to 4.", "all four in their bands", ""),
    step(3, "build", "Key off, battery negative off.", "negative off at __:__, earliest __:__", ""),
    step(4, "build", "Take the radio out and unplug A.", "", ""),
    step(
        5,
        "build",
        "Make the intercept at plug A: sleeve on, splice, sleeve over, stagger by 30 to 40 mm.",
        "",
        "the wait of the restraint system is not recorded",
    ),
    step(6, "build", "Pull four jackets through the left sill, then cut.", "", ""),
    step(7, "bench", "Battery negative on, main fuse last.", "tests 5 to 9 passed", ""),
    step(8, "bench", "Set the gains.", "", ""),
    step(9, "close", "Trim back, then tests 18 to 20.", "", ""),
)


def sample_pack(parts: JobParts | None = None, **changed: Any) -> WorkPack:
    """The pack of `job_parts()`; the tap plan is the planner's own, the rest by hand."""
    parts = parts or job_parts()
    plan = make_plan(
        parts.vehicle, parts.converter, defaults=parts.shelf.defaults, treatment="intercept"
    )
    cable = parts.cables[0]
    names = [one.name for one in parts.job.speakers]
    given: dict[str, Any] = {
        "job": parts.job.id,
        "kind": "tap_plan",
        "plan": plan,
        "treatments": tuple(
            Reason(f"{name.replace('-', ' ')}: intercept", "the new amplifier drives its speaker",
                   "common practice, no source")
            for name in DOORS
        ),
        "levels": tuple(
            chain(name, channel) for name, channel in zip(names, DOORS, strict=True)
        ),
        "power": power(),
        "conductors": conductors(cable),
        "cut_list": tuple(
            CutRow(f"cable {at}", cable.name, 3.6, 4.6, "left sill") for at in range(1, 5)
        ),
        "labels": labels(),
        "speaker_leads": tuple(
            SpeakerLead(name, "18 AWG copper", 4.6, -0.41, -0.63, -1.01, 17.2, 2.04)
            for name in names
        ),
        "insulate": (*plan.insulate, *(
            Insulated(f"blue (single 1) of cable {at}, {end} end", None, None,
                      "carries nothing; insulate it alone, never twisted with another")
            for at in (2, 3, 4) for end in ("radio", "doors")
        )),
        "tests": TESTS,
        "steps": STEPS,
        "revert": (
            "main fuse out",
            "battery negative off, then the maker's wait",
            "plug A: take the intercept lead out and join radio end and speaker end of all pairs",
            "take the four jackets out of the left sill",
            "holes left: none",
        ),
        "customer": (
            "Fitted: a four-channel amplifier under the rear bench.",
            "Main fuse: 40 A, within 0.3 m of the battery.",
            "Turn the volume no further than the step written below.",
            "Standing for more than 38 days empties the battery.",
        ),
        "parts": (
            PartLine("5C speaker cable, 18 AWG", 18.4, "m", "four pieces of 4.6 m"),
            PartLine("sleeves with adhesive", 19, "", "17 joints and 10 % spare"),
            PartLine("dummy load 47 Ω 5 W", 4, "", "at the radio end, in air"),
            PartLine("main fuse 40 A, maxi", 2, "", "one spare"),
            PartLine("cable ties", 81, "", "one every 0.25 m and 10 % spare"),
        ),
        "losses": ("the radio's own volume limit in reverse gear is gone",),
        "alternatives": (
            Reason("cvn-2a instead", "two inputs: no fader", "the converter's record"),
        ),
        "because": (Reason("four jackets", "eight pairs, two classes, two pairs a jacket",
                           "counted from the cable's record"),),
        "refusals": (),
        "gains": tuple(
            gain(at, name, channel)
            for at, (name, channel) in enumerate(zip(names, DOORS, strict=True), 1)
        ),
        "turn_on_draws": (TurnOnDraw("A.7", ("CVN-4A",), 8.0, 250.0, 0.032),),
    }  # fmt: skip
    return replace(WorkPack(**given), **changed)
