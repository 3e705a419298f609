"""A job's picture on a job's canvas: what the profile makes of it, for the page and the command line."""
