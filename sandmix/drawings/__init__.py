"""Drawings as SVG."""
