"""Photos and other media."""
