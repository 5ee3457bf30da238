"""Lets the tests of the rules import the module that reads the case files."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
