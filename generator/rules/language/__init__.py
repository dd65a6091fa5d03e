"""Languages: what a translation lacks, and what is in it that does not belong there."""
