"""The command line: the same core as the page, without one."""
