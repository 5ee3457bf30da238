"""Names for the arrays that sound is made of."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Samples: TypeAlias = NDArray[np.float64]
"""Values of one channel, one after another; 1 is full scale."""
Spectrum: TypeAlias = NDArray[np.complex128]
"""Values by frequency, from 0 Hz on, as `numpy.fft.rfft` orders them."""
Flags: TypeAlias = NDArray[np.bool_]
"""Whether something holds, value by value."""
