"""A clinic for the cases in which several people have a part."""

from tests.care.conftest import clinic, operated, shelf, store

__all__ = ["clinic", "operated", "shelf", "store"]
