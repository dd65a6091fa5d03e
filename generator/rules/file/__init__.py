"""What cannot be read."""
