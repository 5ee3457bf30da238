"""What can be typed: the commands with their options and help, and nothing of what they do.

Help and completion load these files alone. Each command, once it is run, loads the module of
`builder.cli` that does it.
"""
