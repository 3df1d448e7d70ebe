"""The materials stockroom for a bench conservator of works on paper."""

__version__ = "0.1.0"
