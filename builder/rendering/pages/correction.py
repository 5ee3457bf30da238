"""The report that a "Correct this pin" link opens: filled in as far as the page knows.

It asks how something was measured, because a correction without that is one claim more. It
never asks for anything that names a car or a customer.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from urllib.parse import quote

from builder.model.names import function_name
from builder.model.plugs import Pin, Plug
from builder.model.vehicle import Vehicle
from builder.rendering.drawings.wire_colours import wire_words
from builder.rendering.pages.wording import pin_anchor

ASKS = (
    "What is wrong or missing:",
    "Meter (kind, input resistance in megohms, true RMS or not):",
    "Key state (if asleep, minutes locked and left alone):",
    "Value and unit, and against what:",
    "Battery volts at that moment:",
    "Load on the wire (none, 5 mA, 50 mA, 1 A, lamp):",
    "Face looked at (where the wires enter, or the open face):",
    "Car tag (any random one), model year, trim:",
    "By (shop or handle), date:",
)
"""What a report has to say, one line each."""
NEVER = "No chassis number, number plate or customer here, please."


def report_title(place: str, vehicle: Vehicle) -> str:
    """One line that names the pin and the record."""
    return f"{place} of {vehicle.id}"


def report_body(place: str, vehicle: Vehicle, says: str = "") -> str:
    """The text to fill in; `says` is what the book holds of the pin."""
    told = [f"The book says: {says}"] if says else []
    return "\n".join([f"Record: {vehicle.id}", f"Pin: {place}", *told, *ASKS, NEVER]) + "\n"


def blank_report(vehicle: Vehicle) -> str:
    """The text for any pin of a vehicle, to be copied where no address is known."""
    return report_body("", vehicle)


def report_links(vehicle: Vehicle, address: str) -> Mapping[str, str]:
    """Return the address of the report of each pin, by the pin's anchor on the page.

    `address` is a template with {title} and {body}; "" gives no links.
    """
    return dict(_links(vehicle, address)) if address else {}


def _links(vehicle: Vehicle, address: str) -> Iterator[tuple[str, str]]:
    for plug in vehicle.plugs:
        for pin in plug.pins:
            place = f"{plug.id}.{pin.cavity}"
            body = report_body(place, vehicle, pin_says(pin))
            yield _anchor(plug, pin), filled(address, report_title(place, vehicle), body)


def _anchor(plug: Plug, pin: Pin) -> str:
    return pin_anchor(plug.id, pin.cavity)


def pin_says(pin: Pin) -> str:
    """What the record holds of a pin, in a few words."""
    wire = wire_words(pin.wire)
    what = " ".join(w for w in (function_name(pin.function), pin.channel or "", pin.leg or "") if w)
    return f"{what}, {wire}"


def filled(address: str, title: str, body: str) -> str:
    """Return the address with both texts in it, every character that means something escaped."""
    coded = {"{title}": quote(title, safe=""), "{body}": quote(_lines(address, body), safe="")}
    for mark, text in coded.items():
        address = address.replace(mark, text)
    return address


def _lines(address: str, body: str) -> str:
    # Mail wants both characters at a line's end; RFC 6068, section 5.
    return body.replace("\n", "\r\n") if address.startswith("mailto:") else body
