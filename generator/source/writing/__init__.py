"""One way of writing authored files: the same records and prose, set down alike."""
