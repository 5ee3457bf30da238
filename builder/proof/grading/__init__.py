"""What the evidence on a pin is worth: gathered, weighed, put together and said in words."""
