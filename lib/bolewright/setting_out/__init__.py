"""Setting out: what a person with a tape, a level and a string needs on the day, from the checked layout."""
