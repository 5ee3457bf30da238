"""Looms in a job: which goes where, what is cut in it, what it costs, how it is made."""
