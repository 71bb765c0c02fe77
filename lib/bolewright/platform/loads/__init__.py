"""What lands on the platform and how it is shared: deck, people, guards, wind; the load path."""
