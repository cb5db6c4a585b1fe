"""The shape, without water: fair curves, sections, scaling, own weight from stock."""
