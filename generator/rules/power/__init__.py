"""What can shock, burn or set on fire."""
