"""Prose of the forms: what the numbers of the drawing stand for, and how a catalogue is filled in."""

from __future__ import annotations

LABELS = (
    (
        "Post size",
        (
            "Across the outside near the top, where the clamps go. Best: calipers, two readings at right angles; or a "
            "tape round the post, and 'circumference' under Size is. A 3 1/2 in pipe is not 3 1/2 in across: measure it, "
            "or read the pipe's mark."
        ),
    ),
    ("Height above ground", "From the ground at the post straight up to the very top."),
    ("Clear straight length", "From the top down to the first bend, weld, collar, sign or cable."),
    (
        "Court above ground",
        (
            "How far the playing surface lies above the ground at the post; with a minus where it lies below. Use a "
            "level: 1 % of fall over 4 ft is 1/2 in."
        ),
    ),
    (
        "Post to end line",
        "From the post's face to the outer edge of the end line; with a minus where the post stands inside the court.",
    ),
    ("Ring heights wanted", "From the playing surface under the ring up to the top edge of the ring; several with ; between."),
    (
        "Wall thickness",
        "Near the ground, where rust eats it: with an ultrasonic gauge, or at an open end. Leave it blank where it is not known.",
    ),
    (
        "Footing",
        (
            "Diameter and depth of the concrete, where they are known from a drawing or a dig. Do not dig beside a post "
            "that stands loose."
        ),
    ),
)
"""What the numbers in the drawing stand for, in their order."""

HOW = (
    (
        "Everywhere",
        (
            "One row an item. Amber headings are needed on every row. The unit in a heading's brackets may be changed for"
            " another of the same kind; a cell may carry a unit of its own, such as 4 ft 6 in. Each code stands once."
        ),
    ),
    (
        "Mounts",
        (
            "'Post height needed' is the height of post at which the ring hangs at 'For ring height', with the mount "
            "clamped as high as it goes and set highest. 'Ring travel' is how far below that it can be set; a stepped "
            "mount needs a 'Ring step', a fixed one has no travel."
        ),
    ),
    ("Pairings", "Only the pairs listed here may be sold together. A ring goes on every board with the same ring pattern."),
    (
        "Extensions",
        (
            "The bore is for spigots: the bores of post that it enters. Leave 'Rated moment' blank where the maker states"
            " none: the load is then said to be not known."
        ),
    ),
    ("Services", "Charged per post, per extension, per stripped post (where old fittings come off) or per site."),
    (
        "Price breaks",
        "A lower price of an item from a quantity on, counted over one order: a site's, or all sites' of one customer.",
    ),
    ("Freight", "Rows in rising order of mass; leave the mass blank on the last row: everything above."),
    (
        "Customers",
        (
            "Customers with terms of their own. Who is not listed has no discount and is taxed. 'Order together' makes all its "
            "sites one order; 'Choice' is what it wants of several kits that fit. The sheet may be left out."
        ),
    ),
    (
        "Seller",
        (
            "Your own particulars, as the quotation is to say them. The logo is the name of a PNG or JPEG file that lies "
            "beside the catalogue. What is blank is left out."
        ),
    ),
    (
        "Headings and Words",
        "Your own dictionary of what senders type, for all senders. Both sheets may be left out.",
    ),
    (
        "Policy",
        (
            "Every default and limit that the computation uses, with its documented value. Change a value, or delete a "
            "row to keep the documented one. The sheet may be left out."
        ),
    ),
    ("Check it", "postquote check --catalogue FILE lists every fault by sheet and cell."),
)
"""How to fill in the catalogue, by sheet."""
