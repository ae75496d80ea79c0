"""Hostile input against every door: `python -m tests.fuzz --runs N` prints the counts."""
