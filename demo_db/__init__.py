"""The demo studio: a year of sea charts, botanical plates and railway posters, told relative to today."""
