"""Answers for the command line: find, show, plan, which, identify, explain, wanted."""
