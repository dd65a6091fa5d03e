"""The verdict as one picture for the end of a film: the author's words, what was counted, the index on its line."""
