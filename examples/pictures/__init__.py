"""Pictures that stand in for site photographs: materials with light on them, drawn from numbers alone."""
