"""The exploded stack: every part of a run of steps, drawn apart along the way it leaves."""
