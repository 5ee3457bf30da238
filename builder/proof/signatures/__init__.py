"""What a pin of each kind reads: the signatures as rows, and which of them a pin may have."""
