"""The clerk's desk: drawing a sample, comparing re-measurements, asking about readings that look odd."""
