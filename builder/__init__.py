"""loombook: records of radio-connector pins, proved by readings, made into plans and pages."""

import time

__version__ = "0.1.0"
LOADED_NS = time.time_ns()
"""When our first module was loaded: nobody knows whether what is saved since is loaded too."""
