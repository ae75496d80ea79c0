"""The same timed conversation, written for each of several ways to hold it."""
