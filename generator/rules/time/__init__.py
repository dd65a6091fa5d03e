"""Times in the film."""
