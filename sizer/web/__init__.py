"""The wizard in the browser: thin steps over the engine, and the drawings they show."""
