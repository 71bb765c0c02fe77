"""The platform as a whole: project file -> layout -> load path -> checks -> results."""
