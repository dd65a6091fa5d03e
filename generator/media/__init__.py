"""Photos made fit for a page: upright, bounded, and without anything but their pixels."""
