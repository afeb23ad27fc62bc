"""Plain mathematics: roots, tables, curves, polygons, the normal distribution. No word of boats or of electricity in here."""
