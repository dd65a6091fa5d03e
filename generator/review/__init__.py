"""What a change of a library means at the bench: two states of it, compared by what they let a reader do."""
