"""What can still stand in a seat as part of a whole board that does not clash.

`whole` says which seats a whole board has, `followed` what of a part a rule can see, `tables` remember what the judge
said of each combination that a rule can tell apart, and the search works on these tables alone. Nothing is ever
derived without the judge, so no answer can disagree with it.
"""
