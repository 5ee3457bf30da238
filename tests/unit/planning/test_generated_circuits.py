"""Jobs made at random from the shipped ones: each piece of each circuit stands on every sheet.

Five hundred of them in the long form, a hundred in the suite: the converter fed elsewhere, pads
asked for or forbidden, a second battery, other loads on the turn-on lead, other lengths, another
converter, a distribution block. What comes of a job is for others to test; whatever comes to a tap
plan has to be whole, to keep the laws and to be drawn.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from dataclasses import replace

from circuit_checks import check_circuit
from pack_jobs import HOUSE, SHIPPED, settled, shipped_parts
from samples import many
from spice_checks import check_deck
from wiring_drawn import wiring_picture, wiring_pieces

from builder.model.job import Distribution, Job, JobBranch, SecondBattery, TurnOnLoad
from builder.planning.circuit import laws
from builder.planning.circuit.model import Circuit
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts, WorkPack

SEEDS = SHIPPED
Change = Callable[[JobParts, random.Random], JobParts]


def with_job(parts: JobParts, **changes: object) -> JobParts:
    return replace(parts, job=replace(parts.job, **changes))  # type: ignore[arg-type]


def fed_elsewhere(parts: JobParts, dice: random.Random) -> JobParts:
    places = ["amplifier", "radio", "fuse_position", "block"]
    return with_job(parts, converter_supply=dice.choice(places))


def padded(parts: JobParts, dice: random.Random) -> JobParts:
    return with_job(parts, pad=dice.choice(["none", 330.0, 1200.0, 3900.0]))


def farther(parts: JobParts, dice: random.Random) -> JobParts:
    times = dice.uniform(0.4, 1.3)
    routes = tuple(replace(each, length_m=each.length_m * times) for each in parts.job.routes)
    lead = parts.job.supply.supply_lead_m
    supply = replace(parts.job.supply, supply_lead_m=None if lead is None else lead * times)
    return with_job(parts, routes=routes, supply=supply)


def with_loads(parts: JobParts, dice: random.Random) -> JobParts:
    loads = tuple(
        TurnOnLoad(
            name=f"load {at}",
            draw_ma=dice.choice([5, 20, 60]),
            coil=dice.random() < 0.5,
            diode=dice.choice(["yes", "no"]),
        )
        for at in range(1, dice.choice([2, 3]))
    )
    return with_job(parts, other_turn_on_loads=loads)


def with_second_battery(parts: JobParts, dice: random.Random) -> JobParts:
    way = dice.choice(["relay", "dc_charger", "diode"])
    battery = SecondBattery(
        type=dice.choice(["agm", "lithium", "lead_acid"]), ah=dice.choice([40, 80]), age_years=0,
        place="right luggage side", joined_by=way,  # type: ignore[arg-type]
        charger_a=25 if way == "dc_charger" else None, link_m=dice.uniform(3, 6),
        feed_m=0.6, ground_m=0.4,
    )  # fmt: skip
    return with_job(parts, supply=replace(parts.job.supply, second_battery=battery))


def on_a_block(parts: JobParts, dice: random.Random) -> JobParts:
    branches = tuple(
        JobBranch(amplifier=each.name, out_m=round(dice.uniform(0.2, 1.0), 2), return_m=0.4)
        for each in parts.job.amplifiers
    )
    supply = replace(
        parts.job.supply, distribution=Distribution(branches=branches), ground_lead_m=0.0
    )
    return with_job(parts, supply=supply)


def on_another_converter(parts: JobParts, dice: random.Random) -> JobParts:
    other = dice.choice(sorted(set(parts.shelf.converters) - {parts.job.converter}))
    job = replace(parts.job, converter=other)
    return replace(parts, job=job, converter=parts.shelf.converters[other])


def with_new_doors(parts: JobParts, dice: random.Random) -> JobParts:
    """New speakers in the places of some of the car's own, on the wires that the car has."""
    speakers = tuple(
        replace(each, existing=False) if each.existing_lead and dice.random() < 0.7 else each
        for each in parts.job.speakers
    )
    return with_job(parts, speakers=speakers)


CHANGES: tuple[Change, ...] = (
    fed_elsewhere, padded, farther, with_loads, with_second_battery, on_a_block,
    on_another_converter, with_new_doors,
)  # fmt: skip


def generated(number: int) -> tuple[str, JobParts, WorkPack]:
    dice = random.Random(number)
    name = dice.choice(SEEDS)
    parts = settled(shipped_parts(name))
    changes = dice.sample(CHANGES, dice.randint(1, 4))
    for change in changes:
        parts = change(parts, dice)
    said = ", ".join(change.__name__ for change in changes)
    return f"{number}: {name} {said}", parts, make_pack(parts, defaults=HOUSE)


def breaches(circuit: Circuit) -> list[laws.Breach]:
    return [
        *laws.unjoined_terminals(circuit), *laws.nets_with_two_drivers(circuit),
        *laws.legs_that_meet_ground(circuit), *laws.unfed_channels(circuit),
        *laws.unfused_wires(circuit, HOUSE),
    ]  # fmt: skip


def test_every_piece_of_every_generated_job_is_on_every_sheet() -> None:
    count, fed = Counter[str](), Counter[str]()
    for number in range(many(500)):
        said, parts, pack = generated(number)
        count[pack.kind] += 1
        if pack.circuit is None:
            continue
        fed[parts.job.converter_supply] += 1
        try:
            check_circuit(parts, pack)
            check_deck(parts, pack)
            assert breaches(pack.circuit) == []
            assert wiring_picture(pack.circuit, parts)
            assert wiring_pieces(pack.circuit, parts)
        except Exception as error:
            raise AssertionError(said) from error
    assert count["tap_plan"] > many(500) / 4, count
    assert {"radio", "amplifier"} <= set(fed), fed


def test_a_generated_job_is_another_than_its_seed() -> None:
    """So that the test above cannot pass by asking the shipped jobs again."""
    jobs = {name: shipped_parts(name).job for name in SEEDS}
    doors = next(name for name, job in jobs.items()
                 if all(each.existing_lead for each in job.speakers))  # fmt: skip
    for change in CHANGES:
        before: Job = shipped_parts(doors).job
        after = change(shipped_parts(doors), random.Random(1)).job
        assert after != before, change.__name__
