"""The depth plot: how many steps lead to each part of one device."""
