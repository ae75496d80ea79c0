"""What the readings show."""
