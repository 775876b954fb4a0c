"""The physics and geometry behind the readings: numbers in, numbers out, each formula with its source."""
