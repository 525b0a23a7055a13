"""Words of headings that say of which posts a column is: round ones, square ones, both of a row. Source: common practice."""

from __future__ import annotations

_POSTS = r"(?:posts?|poles?|ones?|uprights?|tubes?|tubing|pipes?|columns?|standards?)"
OF_ROUND = rf"(?:if |for |when )?(?:(?:it is |it's |its |they are )?(?:round|rnd|rd|circular))\.?(?: {_POSTS})?\s*[:,;–—-]\s*"
OF_SQUARE = rf"(?:if |for |when )?(?:(?:it is |it's |its |they are )?(?:square|sq))\.?(?: {_POSTS})?\s*[:,;–—-]\s*"
"""Of which shape the posts are that a heading is for, before what is measured, as patterns: `Round: inches around`."""
BOTH = (
    r"[\s,;:(\[–-]*\b(?:(?:for|at|on|of|is|the|same|are) )*(?:both|each|either|ambos|ambas|(?:los|las|les|os|as|le|i) (?:dos|deux|dois|duas|due)|beider?|"
    r"entrambi|entrambe|ambo)(?: (?:the|los|las|les|os|as|i|le|gli))? (?:ends?|posts?|poles?|goals?|hoops?|baskets?|uprights?|"
    r"extremos|postes|aros|canastas|bouts|poteaux|m[âa]ts|paniers|enden|masten|pfosten|körbe|pali|canestri|estremit[àa]|pontas|cestas)"
    r"(?: (?:the )?same)?\b[)\]]?\s*:?"
)
"""Words of a heading, as a pattern, by which its column is both posts' of a row: `OD both ends`."""
