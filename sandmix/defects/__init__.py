"""Defects of castings and moulds: their causes, signs, and what readings and checks find."""
