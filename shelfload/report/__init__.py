"""Results as text, data, pages and drawings."""
