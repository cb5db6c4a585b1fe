"""One thin file a step of the wizard, in the builder's own order of questions."""
