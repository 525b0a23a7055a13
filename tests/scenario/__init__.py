"""The scenario of input_examples: a school district, a city's parks and a league, all of them made up.

`catalogue` is what the dealer sells; `district`, `city` and `league` are what three senders typed;
`expected` is what the wrong rows are meant to show; the rest writes files, the same bytes each time.
"""
