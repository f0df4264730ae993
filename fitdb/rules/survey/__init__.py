"""Sizes worked out from readings: rules without a limit, one file per target."""
