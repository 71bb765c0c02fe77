"""The checks of a platform, by subject in the order of the load path."""
