"""The job contract: one model, its checks, its JSON Schema, and the dotted `field=value` edits."""
