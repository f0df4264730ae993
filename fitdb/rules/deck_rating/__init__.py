"""J78 Mass rating of the deck.

A deck that breaks throws its rider. What its maker allows is asked of rider and pack together, and a deck without a
rating has none: it is not guessed.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="deck_rating", joint="J78", title="Mass rating of the deck")
