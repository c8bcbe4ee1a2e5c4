"""Furniture in the user's words: the description, its reader and its schema."""
