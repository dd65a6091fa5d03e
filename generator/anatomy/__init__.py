"""The device as a thing: its parts, the joints between them, and what holds or hides what."""
