"""The code on paper that a phone's camera reads: an address as a square of modules."""
