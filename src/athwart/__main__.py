"""``python -m athwart``."""

from athwart.cli import main

main()
