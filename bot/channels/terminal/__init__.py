"""The terminal: for trying a test out, and for watching one being played."""
