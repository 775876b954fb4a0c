"""What a site says: the site file and one record per opening, as frozen models."""
