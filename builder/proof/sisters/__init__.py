"""Sister records, of cars that differ in a trim, a year, a radio: what parts and tells them."""
