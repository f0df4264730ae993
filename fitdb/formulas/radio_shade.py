"""How many sides of an antenna are shut off by what conducts (J69)."""

SIDES = 6


def shaded_sides(antenna: str, box_conducts: str, deck_conducts: str, deck_sides: float) -> float:
    """Sides of the antenna, of six, behind metal or carbon.

    ``antenna`` is `inside` or `on_a_lead` (led out of the box: none is shaded); ``box_conducts`` and ``deck_conducts``
    yes or no; ``deck_sides`` how many of the six sides the deck forms: 1 above a box, 5 round a pocket.
    Source: common practice, no source.
    """
    if antenna == "on_a_lead":
        return 0.0
    return (SIDES - deck_sides) * (box_conducts == "yes") + deck_sides * (deck_conducts == "yes")
