"""Which pins feed which converter input, and the tap plan of a vehicle."""
