"""How it reads at the bench."""
