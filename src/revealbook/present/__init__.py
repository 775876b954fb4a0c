"""What a reader sees, as plain frozen values; no files and no typesetter here."""
