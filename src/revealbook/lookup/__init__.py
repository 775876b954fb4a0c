"""Looking up filed packs: the index, finding, tracing, one opening's story."""
