"""Text with places: knows files, lines and columns, nothing of windows."""
