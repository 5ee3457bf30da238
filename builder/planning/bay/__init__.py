"""The work in the bay: the test sheet, the steps, the way back, the hand-over."""
