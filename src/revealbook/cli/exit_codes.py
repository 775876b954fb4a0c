"""What the exit status says; scripts may rely on it."""

WELL = 0
"""Nothing that was judged fails to conform."""
DOES_NOT_CONFORM = 1
"""Something does not conform (with --strict: or is undecided or not shown)."""
UNUSABLE = 2
"""The input could not be read, or the command was used wrongly."""
