"""A job record."""

from __future__ import annotations

from typing import cast

from builder.findings import DataPath
from builder.model.job import (
    FollowUp,
    Job,
    JobAmplifier,
    JobBranch,
    JobCar,
    JobLead,
    JobSpeaker,
    JobSupply,
    Result,
    Route,
    TurnOnLoad,
)
from builder.model.vehicle import Acceptance
from builder.model.words import Channel, Treatment
from builder.parsing.values import Data, number, section, text_or_none, texts


def parse_job(data: Data) -> Job:
    """Return the typed job. `treatment: auto` becomes an empty mapping."""
    return Job(
        id=data["id"],
        data=data["data"],
        title=data["title"],
        vehicle=data["vehicle"],
        car=_car(data["car"]),
        wanted=data["wanted"],
        protect=texts(data, "protect"),
        converter=data["converter"],
        converter_place=data["converter_place"],
        pad=data.get("pad", "auto"),
        amplifiers=tuple(
            JobAmplifier(item["name"], item["part"], item["place"], path)
            for item, path in _placed(data, "amplifiers")
        ),
        speakers=tuple(_speaker(item, path) for item, path in _placed(data, "speakers")),
        treatment=cast(dict[Channel, Treatment], section(data, "treatment")),
        routes=tuple(_route(item, path) for item, path in _placed(data, "routes")),
        cables=texts(data, "cables"),
        supply=_supply(data["supply"]),
        other_turn_on_loads=tuple(
            _load(item, path) for item, path in _placed(data, "other_turn_on_loads")
        ),
        accept=tuple(
            Acceptance(item["rule"], None, item["reason"], item["who"], path)
            for item, path in _placed(data, "accept")
        ),
        results=tuple(_result(item, path) for item, path in _placed(data, "results")),
        follow_up=tuple(
            FollowUp(item["date"], item["outcome"]) for item in data.get("follow_up", ())
        ),
        edited=text_or_none(data, "edited"),
    )


def _placed(data: Data, key: str) -> list[tuple[Data, DataPath]]:
    """Return the entries of the list at `key`, each with its place; none when it is left out."""
    return [(item, (key, index)) for index, item in enumerate(data.get(key, ()))]


def _car(data: Data) -> JobCar:
    return JobCar(
        tag=data["tag"],
        year=data.get("year"),
        built=data.get("built"),
        trim=data.get("trim"),
        answers=tuple((item["question"], item["answer"]) for item in data["answers"]),
    )


def _speaker(data: Data, path: DataPath) -> JobSpeaker:
    driver = data["driven_by"]
    return JobSpeaker(
        name=data["name"],
        channel=data["channel"],
        nominal_ohm=data["nominal_ohm"],
        rated_w_rms=data["rated_w_rms"],
        existing=data["existing"] == "yes",
        existing_lead=_lead(section(data, "existing_lead")),
        lead=_lead(section(data, "lead")),
        amplifier=driver["amplifier"],
        amplifier_channel=driver["channel"],
        plays=tuple(data["from"]),
        overlap=data.get("overlap", "no") == "yes",
        path=path,
    )


def _lead(data: Data) -> JobLead | None:
    if not data:
        return None
    return JobLead(data["length_m"], text_or_none(data, "size_awg"), number(data, "size_mm2"))


def _route(data: Data, path: DataPath) -> Route:
    return Route(
        from_place=data["from"],
        to_place=data["to"],
        carries=data["carries"],
        length_m=data["length_m"],
        zones=texts(data, "zones"),
        measured_by=data.get("measured_by"),
        path=path,
    )


def _supply(data: Data) -> JobSupply:
    branches = section(data, "distribution").get("branches", ())
    return JobSupply(
        supply_lead_m=number(data, "supply_lead_m"),
        ground_lead_m=number(data, "ground_lead_m"),
        fuse_to_battery_m=number(data, "fuse_to_battery_m"),
        fuse_family=data["fuse_family"],
        material=data["material"],
        size_awg=text_or_none(data, "size_awg"),
        size_mm2=number(data, "size_mm2"),
        branches=tuple(
            JobBranch(item["amplifier"], item["out_m"], item["return_m"]) for item in branches
        ),
        ground_point=data["ground_point"],
        listening=data["listening"],
        locks_per_day=number(data, "locks_per_day"),
        wake_hold_min=number(data, "wake_hold_min"),
        idle_a=number(data, "idle_a"),
        parked_ma=number(data, "parked_ma"),
        path=("supply",),
    )


def _load(data: Data, path: DataPath) -> TurnOnLoad:
    return TurnOnLoad(
        name=data["name"],
        draw_ma=data["draw_ma"],
        coil=data["coil"] == "yes",
        diode=data.get("diode", "unknown"),
        path=path,
    )


def _result(data: Data, path: DataPath) -> Result:
    passed = data.get("passed")
    return Result(
        test=data["test"],
        value=number(data, "value"),
        passed=None if passed is None else passed == "yes",
        by=data["by"],
        date=data["date"],
        path=path,
        battery_v=number(data, "battery_v"),
    )
