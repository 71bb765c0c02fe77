"""All checks of a project in one place: summary, verdict, schema, what is not calculated."""
