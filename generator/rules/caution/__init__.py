"""Cautions: that they are there, and in time."""
