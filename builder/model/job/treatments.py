"""What is done with each factory pair."""

from __future__ import annotations

from typing import Any, cast

from builder.declaring import fields_of, record, word
from builder.model.forms import TREATMENT
from builder.model.words import Channel, Treatment


def _pair(channel: str) -> Any:
    said = f"What is done with the pair {channel}."
    return word(said, "addon", form=TREATMENT, key=channel, label=channel, default=None)


@record
class Treatments:
    """What is done with each factory pair, or auto to let the tool decide."""

    front_left: Treatment | None = _pair("front-left")
    front_right: Treatment | None = _pair("front-right")
    rear_left: Treatment | None = _pair("rear-left")
    rear_right: Treatment | None = _pair("rear-right")
    centre: Treatment | None = _pair("centre")
    sub: Treatment | None = _pair("sub")
    front_left_woofer: Treatment | None = _pair("front-left-woofer")
    front_left_tweeter: Treatment | None = _pair("front-left-tweeter")
    front_right_woofer: Treatment | None = _pair("front-right-woofer")
    front_right_tweeter: Treatment | None = _pair("front-right-tweeter")
    rear_left_woofer: Treatment | None = _pair("rear-left-woofer")
    rear_left_tweeter: Treatment | None = _pair("rear-left-tweeter")
    rear_right_woofer: Treatment | None = _pair("rear-right-woofer")
    rear_right_tweeter: Treatment | None = _pair("rear-right-tweeter")

    @property
    def by_channel(self) -> dict[Channel, Treatment]:
        """The pairs of which something is said."""
        said = {each.key: getattr(self, each.attribute) for each in fields_of(Treatments)}
        return cast(dict[Channel, Treatment], {key: how for key, how in said.items() if how})
