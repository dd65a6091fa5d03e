"""What does not add up."""
