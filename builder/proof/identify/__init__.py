"""Which wire it is: candidates, the measurement that splits them, and what raises the winner."""
