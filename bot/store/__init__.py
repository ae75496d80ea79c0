"""Durable facts: tables, the codec between them and the engine's records, and the unit of work."""

from bot.store.database import open_store

__all__ = ["open_store"]
