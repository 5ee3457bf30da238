"""What speaks against a pin: clashes of its readings, disputes, and what would explain them."""
