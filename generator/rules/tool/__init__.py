"""Tools that do not do what they are taken up for."""
