"""What the car gives: its pairs, sources, turn-on places, and what may be done at each pin."""
