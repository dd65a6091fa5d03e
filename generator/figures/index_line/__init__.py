"""Scores on their line: the range of one criterion, and the sum between the classes of an index."""
