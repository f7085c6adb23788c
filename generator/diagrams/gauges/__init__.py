"""Small drawings of settings: where the gauge goes, least and most, to one of the scales of technical drawing."""
