"""Names that point nowhere, and things that no name points to."""
