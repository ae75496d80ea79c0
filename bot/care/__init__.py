"""The care team's side: who may do what, what waits for them, and what follows. Pure.

As `engine` decides what happens next in a person's chat, this decides what happens on the team's
side: no clock, no input or output, no chance. `roles` has the one table of who may do what.
"""
