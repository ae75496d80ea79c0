"""The dialogues of the machine, one module each. They change a `Turn` and nothing else."""
