"""Packs that were made: opened, read again, kept and found."""
