"""Back to the film: what a guide gives to the one who publishes it, and to its player, as files of plain text."""
