"""The way back: that everything needed to put it together again is said."""
