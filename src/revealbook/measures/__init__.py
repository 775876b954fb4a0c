"""Quantities of the work: from a record to readings. No limit, no rule and no word stands here."""
