"""What the drawings would show wrongly."""
