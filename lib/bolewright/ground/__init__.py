"""Ground: soil, plain concrete footings, uplift, embedded posts, concrete quantities."""
