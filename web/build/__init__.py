"""Building and serving the site with the standard library alone; what it needs is fetched and checked."""
