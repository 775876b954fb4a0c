"""The terminal: parses, calls `revealbook.api`, prints and exits; nothing is computed here."""
