"""Pages: finished view models and the templates that set them, from guides to paths with their text."""
