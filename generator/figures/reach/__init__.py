"""The reach plot: how many steps lead to the same parts of several devices."""
