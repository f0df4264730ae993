"""What people write, as values of the model: units, readings, part files and assignments; all faults at once."""
