"""A package, so that no other library's `tests` stands before it: one that ocfl-py brings would."""
