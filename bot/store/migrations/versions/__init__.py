"""One module a revision; a released one never changes."""
