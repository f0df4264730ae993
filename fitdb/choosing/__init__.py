"""What `choose` is made of: snapshots that are kept, pages, facets, remedies, boards that can be opened."""
