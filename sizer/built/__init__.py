"""The boat as it stands: a dry fit measured, and what a launch teaches."""
