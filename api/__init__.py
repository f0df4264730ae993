"""The JSON API: the only room that knows HTTP. Thin: what it answers comes from the front doors."""
