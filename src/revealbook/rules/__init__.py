"""Rule sets and their comparison with readings: no physics and no words of the report."""
