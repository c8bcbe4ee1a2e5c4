"""Checks: one question a file, each giving a list of Check."""
