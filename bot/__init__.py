"""Wallside: a companion that stands by while someone does a home lie-sit-stand test."""
