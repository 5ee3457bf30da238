"""The command `loombook`: arguments, exit codes, printing. Answers come from the pipeline.

Exit codes: 0 clean, 1 findings (or a refused plan, or nothing found), 2 wrong use, 3 written and
the check has something to mend, 130 stopped by Ctrl-C.
"""

from builder.cli.main import main

__all__ = ["main"]
