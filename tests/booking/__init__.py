"""When a test is booked."""
