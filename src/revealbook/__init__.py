"""Revealbook: proof of hidden work, one record per window opening."""

__version__ = "0.3.0"
