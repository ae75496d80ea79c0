"""One package for each way to talk. Nothing of a channel's own interface gets past its package."""
