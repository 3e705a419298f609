"""`python -m pycore.cli`, where the console script is not installed."""

from pycore.cli.start import run

run()
