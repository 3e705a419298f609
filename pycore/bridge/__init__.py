"""Between the page and the core: the typed messages, the session that answers them, and one adapter."""
