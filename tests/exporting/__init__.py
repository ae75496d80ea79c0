"""Tests of what goes out in one file."""
