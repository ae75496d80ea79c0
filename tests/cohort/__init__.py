"""Tests of bot.cohort."""
