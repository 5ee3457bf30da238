"""The job as a circuit: every terminal, conductor, joint and element, once, for every sheet."""
