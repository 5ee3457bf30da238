"""Books whose cars were measured in visits of their own: made of shipped ones, as plain data."""

from __future__ import annotations

import json
import shutil
from collections import defaultdict
from pathlib import Path
from typing import Any

from shipped_book import PINOUTS
from shipped_cars import CARS, car_data, car_path

from builder.loading import load_file

Data = dict[str, Any]


def data_of(path: Path) -> Data:
    data = load_file(path, path.name).data
    assert data is not None
    return data


def taken_apart(car: Data) -> tuple[Data, dict[str, Data]]:
    """A vehicle's data without its visits, and the data of each visit by its id."""
    visits: dict[str, Data] = {}
    of_session = {}
    for session in car["sessions"]:
        name = f"{session['by']}-{session['date']}-{session['car']['tag']}"
        of_session[session["id"]] = name
        head = {"schema": 1, "id": name, "data": car["data"], "vehicle": car["id"]}
        visits.setdefault(name, {**head, "sessions": [], "places": []})["sessions"].append(session)
    bare = {**car, "sessions": [], "plugs": []}
    for plug in car["plugs"]:
        place = {"plug": plug["id"]}
        pins = [_bare(pin, {**place, "cavity": pin["cavity"]}) for pin in plug["pins"]]
        bare["plugs"].append({**plug, "pins": [pin for pin, _ in pins]})
        _file(visits, of_session, pins)
    if "fuse_positions" in car:
        positions = [
            _bare(one, {"panel": one["panel"], "fuse_position": one["position"]})
            for one in car["fuse_positions"]
        ]
        bare["fuse_positions"] = [one for one, _ in positions]
        _file(visits, of_session, positions)
    return bare, visits


_Placed = tuple[Data, list[Data]]


def _bare(holder: Data, place: Data) -> _Placed:
    rest = {key: value for key, value in holder.items() if key != "readings"}
    return rest, [{**place, "readings": [one]} for one in holder.get("readings", [])]


def _file(visits: dict[str, Data], of_session: dict[str, str], holders: list[_Placed]) -> None:
    for _, places in holders:
        mine: dict[str, list[Data]] = defaultdict(list)
        for place in places:
            mine[of_session[place["readings"][0]["session"]]].append(place)
        for name, found in mine.items():
            readings = [place["readings"][0] for place in found]
            visits[name]["places"].append({**found[0], "readings": readings})


def write(path: Path, data: Data) -> Path:
    """Write data as a record: JSON is YAML."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(json.dumps(data, indent=1, ensure_ascii=False) + "\n", "utf-8")
    return path


def visited_book(folder: Path, *cars: str) -> Path:
    """A copy of the shipped book in which these cars, or all, have their visits in files."""
    shutil.copytree(PINOUTS, folder)
    for car in cars or CARS:
        bare, visits = taken_apart(car_data(car))
        write(car_path(folder, car), bare)
        shutil.rmtree(folder / "visits" / car, ignore_errors=True)
        for name, visit in visits.items():
            write(folder / "visits" / car / f"{name}.yaml", visit)
    return folder


def visit_files(book: Path, car: str) -> list[Path]:
    return sorted((book / "visits" / car).glob("*.yaml"))
