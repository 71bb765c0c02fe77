"""Forces found from loads: combinations, patterns, lateral forces, braces, knees."""
