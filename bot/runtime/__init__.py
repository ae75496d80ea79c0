"""WHEN things happen: the conductor, the courier, the alarms, the clock, and the ports they use."""
