"""The fault matrix: what each fault loses on each store, printed by `python -m tests.faults`."""
