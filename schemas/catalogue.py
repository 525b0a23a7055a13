"""The catalogue: one workbook, one sheet a table."""

from __future__ import annotations

from schemas.column import Column, Table
from schemas.policy import POLICY

STATUSES = ("active", "withdrawn")
MOUNT_SHAPES = ("round", "square")
FASTENINGS = ("u-bolt", "band", "through-bolt")
ADJUSTMENTS = ("fixed", "stepped", "continuous")
OUTLINES = ("rectangular", "fan")
RING_KINDS = ("fixed", "breakaway")
JOINTS = ("sleeve", "spigot")
CHARGES = ("per post", "per extension", "per stripped post", "per site")
CHOICES = ("least price", "widest board", "most heights", "one board")
"""What a customer wants of several kits that fit; the first is taken where nothing is said."""
PARTICULARS = (
    "name", "address", "contact", "phone", "email", "tax number", "logo", "payment terms", "delivery terms", "lead time",
    "warranty", "acceptance", "closing",
)
"""What the sheet Seller may say, in the order in which our own form asks for it."""
LOGO_SUFFIXES = (".png", ".jpg", ".jpeg")
LOGO_MOST_BYTES = 1 << 20
LOGO_SIDES = (16, 4000)
"""Least and greatest side of a logo [px]: below, nothing can be made out on paper; above, it is no logo."""

MAY_BE_ZERO = frozenset(
    {"size_least_m", "travel_m", "step_m", "overhang_m", "mass_kg", "bore_least_m", "price", "discount_percent"}
)
"""Numbers of which 0 means something; every other number must be above 0, and none below."""
LEAST_AND_MOST = (("size_least_m", "size_most_m"), ("bore_least_m", "bore_most_m"))
"""Windows: the least is not above the most."""

_DESCRIPTION = Column("description", "Description", "text", help="What the customer reads on the quotation.")
_PRICE = Column("price", "Price", "money", needed=True, help="List price of one, in the policy's currency.")
_STATUS = Column(
    "status", "Status", "choice", needed=True, values=STATUSES, help="Withdrawn items are never quoted."
)
_MASS = Column("mass_kg", "Mass", "mass", "lb", needed=True, help="Mass of one.")
_SIZE_LEAST = Column(
    "size_least_m", "Post size least", "length", "in", needed=True, help="Least outside size of post that it takes."
)
_SIZE_MOST = Column(
    "size_most_m", "Post size most", "length", "in", needed=True, help="Greatest outside size of post that it takes."
)
_SHAPE = Column("post_shape", "Post shape", "choice", needed=True, values=MOUNT_SHAPES, help="Shape of post that it takes.")
_RING_PATTERN = Column(
    "ring_pattern", "Ring pattern", "code", needed=True,
    help="Hole pattern; a ring goes on every board with the same one.",
)

MOUNTS = Table(
    "Mounts",
    "one mount",
    (
        Column("mount", "Mount", "code", needed=True, help="Code of the mount."),
        _DESCRIPTION,
        _SHAPE,
        _SIZE_LEAST,
        _SIZE_MOST,
        Column("fastening", "Fastening", "choice", needed=True, values=FASTENINGS, help="How it holds on to the post."),
        Column("adjustment", "Adjustment", "choice", needed=True, values=ADJUSTMENTS, help="How its ring height is set."),
        Column(
            "post_height_needed_m", "Post height needed", "length", "ft", needed=True,
            help="Post height needed for a ring at 'For ring height', clamped as high as it goes and set highest.",
        ),
        Column("for_ring_height_m", "For ring height", "length", "ft", needed=True, help="The ring height that goes with it."),
        Column(
            "travel_m", "Ring travel", "length", "ft", default="0", help="How far below its highest setting the ring can be set."
        ),
        Column("step_m", "Ring step", "length", "in", default="0", help="Distance between settings; blank or 0 for continuous."),
        Column(
            "clamp_length_m", "Clamp length", "length", "in", needed=True,
            help="Straight clear post that the clamps occupy from the top down, clamped highest.",
        ),
        Column(
            "overhang_m", "Overhang", "length", "in", needed=True, help="Front face of the post to front face of the board."
        ),
        Column("board_width_most_m", "Board width most", "length", "in", needed=True, help="Widest board that it carries."),
        Column(
            "board_mass_most_kg", "Board mass most", "mass", "lb", needed=True,
            help="Heaviest board with its ring that it carries.",
        ),
        _MASS,
        _PRICE,
        _STATUS,
    ),
    key=("mount",),
)

BOARDS = Table(
    "Boards",
    "one board",
    (
        Column("board", "Board", "code", needed=True, help="Code of the board."),
        _DESCRIPTION,
        Column("outline", "Outline", "choice", needed=True, values=OUTLINES, help="Rectangular or fan."),
        Column("width_m", "Width", "length", "in", needed=True, help="Width of the board."),
        Column("height_m", "Height", "length", "in", needed=True, help="Height of the board."),
        _MASS,
        Column("face", "Face", "text", help="What the face is made of."),
        Column("frame", "Frame", "text", help="What the frame is made of."),
        _RING_PATTERN,
        _PRICE,
        _STATUS,
    ),
    key=("board",),
)

RINGS = Table(
    "Rings",
    "one ring",
    (
        Column("ring", "Ring", "code", needed=True, help="Code of the ring."),
        _DESCRIPTION,
        Column("kind", "Kind", "choice", needed=True, values=RING_KINDS, help="Fixed or breakaway."),
        _RING_PATTERN,
        _MASS,
        _PRICE,
        _STATUS,
    ),
    key=("ring",),
)

PAIRINGS = Table(
    "Pairings",
    "a mount and a board that may be sold together",
    (
        Column("mount", "Mount", "code", needed=True, help="Code of the mount."),
        Column("board", "Board", "code", needed=True, help="Code of the board."),
    ),
    key=("mount", "board"),
)

EXTENSIONS = Table(
    "Extensions",
    "one extension",
    (
        Column("extension", "Extension", "code", needed=True, help="Code of the extension."),
        _DESCRIPTION,
        _SHAPE,
        _SIZE_LEAST,
        _SIZE_MOST,
        Column("joint", "Joint", "choice", needed=True, values=JOINTS, help="Sleeve over the post or spigot into it."),
        Column("added_m", "Added height", "length", "in", needed=True, help="By how much it makes the post taller."),
        Column("joint_length_m", "Joint length", "length", "in", needed=True, help="Length over which it laps the post."),
        Column("upper_size_m", "Upper size", "length", "in", needed=True, help="Outside size of its upper tube, where a mount clamps."),
        Column("upper_clear_m", "Upper clear length", "length", "in", needed=True, help="Clear length of its upper tube."),
        Column("bore_least_m", "Bore least", "length", "in", help="Spigots: least bore of post that it enters."),
        Column("bore_most_m", "Bore most", "length", "in", help="Spigots: greatest bore of post that it enters."),
        Column(
            "rated_moment_N_m", "Rated moment", "moment", "N m",
            help="What the joint and the upper tube may carry; blank where it is not known.",
        ),
        _MASS,
        _PRICE,
        _STATUS,
    ),
    key=("extension",),
)

SERVICES = Table(
    "Services",
    "one service",
    (
        Column("service", "Service", "code", needed=True, help="Code of the service."),
        _DESCRIPTION,
        Column("charged", "Charged", "choice", needed=True, values=CHARGES, help="What it is charged by."),
        _PRICE,
    ),
    key=("service",),
)

PRICE_BREAKS = Table(
    "Price breaks",
    "a lower price from a quantity on",
    (
        Column("item", "Item", "code", needed=True, help="Code of a mount, board, ring or extension."),
        Column("from_quantity", "From quantity", "whole", needed=True, help="Number of the item in one order (one site's, or all sites' of a customer whose sites are ordered together) from which the price holds."),
        Column("price", "Price", "money", needed=True, help="Price of one from that quantity on."),
    ),
    key=("item", "from_quantity"),
)

FREIGHT = Table(
    "Freight",
    "the freight charge up to a mass",
    (
        Column("mass_most_kg", "Mass up to", "mass", "lb", help="Total mass of the goods up to which the price holds; blank on the last row: everything above."),
        Column("price", "Price", "money", needed=True, help="Freight for the goods of one order."),
    ),
)

def _customer_text(name: str, heading: str, help: str) -> Column:
    return Column(name, heading, "text", help=help, may_be_missing=True)


CUSTOMERS = Table(
    "Customers",
    "a customer with terms of its own",
    (
        Column("customer", "Customer", "text", needed=True, help="Name, matched without regard to case and spaces."),
        Column("discount_percent", "Discount", "percent", "%", default="0", help="Discount on goods."),
        Column("tax_exempt", "Tax exempt", "choice", values=("yes", "no"), default="no", help="Yes where no tax is charged."),
        Column("note", "Note", "text", help="For the sales desk; it is not printed on the quotation."),
        _customer_text("also_known_as", "Also known as", "Other names that surveys use for it, ; between."),
        _customer_text("contact", "Contact", "Whom the quotation is addressed to."),
        _customer_text("address", "Address", "Postal address."),
        _customer_text("ship_to", "Ship to", "Where the goods go, if not to the sites."),
        _customer_text("payment_terms", "Payment terms", "Terms of payment, if not the seller's usual ones."),
        Column(
            "order_together", "Order together", "choice", values=("yes", "no"), default="no", may_be_missing=True,
            help="Yes where all its sites are one order: price breaks count over all of them, and freight is charged once.",
        ),
        Column(
            "choice", "Choice", "choice", values=CHOICES, default=CHOICES[0], may_be_missing=True,
            help="What it wants of several kits that fit: least price, widest board, most heights, one board for all posts.",
        ),
    ),
    key=("customer",),
    may_be_missing=True,
)

SELLER = Table(
    "Seller",
    "one particular of the seller",
    (
        Column("setting", "Setting", "choice", needed=True, values=PARTICULARS, help="Which particular of the seller."),
        Column(
            "value", "Value", "text",
            help="What the quotation says; of the logo the name of a PNG or JPEG file beside the catalogue. Blank: left out.",
        ),
    ),
    key=("setting",),
    may_be_missing=True,
)

HEADINGS = Table(
    "Headings",
    "a heading that senders use, and what it means",
    (
        Column("heading", "Heading", "text", needed=True, help="The heading as senders type it; case, spaces and its unit do not count."),
        Column("means", "Means", "text", needed=True, help="The survey's own heading, such as Post line; or nothing, where the column is not to be read."),
    ),
    key=("heading",),
    may_be_missing=True,
)

WORDS = Table(
    "Words",
    "a word that senders use in a column with a list, and what it means",
    (
        Column("column", "Column", "text", needed=True, help="The survey's own heading of a column with a list, such as Condition."),
        Column("word", "Word", "text", needed=True, help="The word as senders type it; case and spaces do not count."),
        Column("means", "Means", "text", needed=True, help="A word of that column's list, such as surface rust."),
    ),
    key=("column", "word"),
    may_be_missing=True,
)

CATALOGUE: tuple[Table, ...] = (
    MOUNTS, BOARDS, RINGS, PAIRINGS, EXTENSIONS, SERVICES, PRICE_BREAKS, FREIGHT, CUSTOMERS, SELLER, HEADINGS, WORDS, POLICY,
)
"""Sheets of a catalogue, in the order in which our own form has them."""
