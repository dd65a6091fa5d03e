"""Screws drawn to scale: the side view with its thread and head, and the drive as seen from above. Lengths in mm."""
