"""A clinic with its store, and the operator's commands on it."""

from tests.care.conftest import clinic, operated, shelf, store

__all__ = ["clinic", "operated", "shelf", "store"]
