"""Answers for the command line: find, show, plan, which, identify, why, next."""
