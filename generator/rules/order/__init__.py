"""What cannot be done in the order given."""
