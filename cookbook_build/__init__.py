"""Binds a household's dried larder and its hot-water recipes into an offline book."""

__version__ = "0.1.0"
