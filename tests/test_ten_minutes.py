"""A car in ten minutes, as the handbook prints it, with the tool as it stands in the checkout."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from ten_minutes import add_the_car, checkout_in


@pytest.mark.skipif(os.name != "posix", reason="the commands are for a POSIX shell")
def test_a_car_is_added_by_what_the_handbook_prints(tmp_path: Path) -> None:
    add_the_car(checkout_in(tmp_path / "loombook", sys.prefix))
