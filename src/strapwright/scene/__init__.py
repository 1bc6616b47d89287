"""Drawings as few primitives: scene, lettering, room for words, themes, SVG."""
