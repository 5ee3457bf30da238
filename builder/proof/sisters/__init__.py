"""Records of one car in several makes of it: which scopes overlap, and what tells them apart."""
