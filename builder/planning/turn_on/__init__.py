"""What switches the amplifiers on, what it can carry, and when it lets go."""
