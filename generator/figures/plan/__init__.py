"""The plan: one drawing a step, seen from the face that lies up, with the joints numbered in undoing order."""
