"""The tasks: one function for each thing that a user asks for, behind page and command line alike.

A task takes a checked job, an opened picture, the open canvas profiles and options. Long ones are
generators: they yield `Progress` and return a result of the core. What a task loads, it loads when its module
is imported; so each door imports the tasks that it runs, and no more.
"""
