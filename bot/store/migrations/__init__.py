"""Migrations of the database, run by `bot.store.database`."""
