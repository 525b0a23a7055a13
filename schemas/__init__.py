"""What a table looks like at each border of the pipeline; no behaviour.

`column` says what a column is; `survey`, `catalogue`, `policy` and `results` are the glossary;
`frames` makes the pandera models and `datapackage` the public description out of it.
"""
