"""Partway: from step files and a model of a device to checked orders, routes and an offline guide."""

__version__ = "0.1.0"
