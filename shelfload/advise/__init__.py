"""What would help: alternatives run through the same checks."""
