"""What the parts cost, measured; run a module by name."""
