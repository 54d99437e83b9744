"""Worked studies that can be run: `python -m theca.studies.demo_study`."""
