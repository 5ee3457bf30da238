"""The course of the work: which hand does what when, as a walk through the states of the car."""
