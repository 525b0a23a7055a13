"""The scenario of input_examples: a school district, a city's parks, a league and a county, all of them made up.

`catalogue` is what the dealer sells; `district`, `city`, `league` and `county` are what four senders typed;
`expected` is what the wrong rows are meant to show; the rest writes files, the same bytes each time.
"""

import os

os.environ.setdefault("OPENPYXL_LXML", "False")  # the same bytes where lxml is installed
