"""From requirements to whole project files: arrangements laid out, sized by the checks, and set side by side."""
