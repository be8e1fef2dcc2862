"""Programs that make the packed data anew."""
