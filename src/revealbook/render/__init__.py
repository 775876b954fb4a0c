"""HTML and PDF: templates filled, fonts and files kept inside, pages typeset; knows nothing of windows."""
