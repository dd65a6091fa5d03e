"""What may be done when: the work as actions, their clauses, the walk through an order, routes and the way back."""
