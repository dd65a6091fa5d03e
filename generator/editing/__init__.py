"""What an editor can be told about authored files: where a name is meant, what may stand here, what a rename touches."""
