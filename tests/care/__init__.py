"""The care team's side."""
