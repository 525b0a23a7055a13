"""The results: one table a file of DIR/data, SI units in the names."""

from __future__ import annotations

from schemas.catalogue import CHOICES
from schemas.column import Column, Table
from schemas.words import HOW_READ, LOAD_STATES, PROMISES, QUERY_CODES, SITE_STATES, VERDICTS

_SITE = Column("site_code", "Site", "code", needed=True, help="Site code.")
_POST = Column("post_code", "Post", "code", needed=True, help="Post code within the site.")


def _text(name: str, heading: str, help: str) -> Column:
    return Column(name, heading, "text", help=help)


def _length(name: str, heading: str, help: str) -> Column:
    return Column(name, heading, "length", "m", help=help)


def _money(name: str, heading: str, help: str) -> Column:
    return Column(name, heading, "money", help=help)


def _whole(name: str, heading: str, help: str) -> Column:
    return Column(name, heading, "whole", help=help)


def _code(name: str, heading: str, help: str) -> Column:
    return Column(name, heading, "code", help=help)


SITES = Table(
    "sites",
    "one site, quoted",
    (
        _SITE,
        _text("site_name", "Site name", "Name of the ground."),
        _text("customer", "Customer", "Whom the quotation is for."),
        _text("site_kind", "Site kind", "School, park, league or other; blank where it is not stated."),
        _whole("revision", "Revision", "Revision number of the quotation."),
        Column("state", "State", "choice", values=SITE_STATES, help="Ready, to confirm, or incomplete."),
        _whole("posts", "Posts", "Posts of the site, held rows included."),
        _whole("posts_quoted", "Posts quoted", "Posts on rows that were read and quoted."),
        _whole("rows_held", "Rows held", "Rows that wait for a correction."),
        _money("net", "Net", "Goods and services."),
        _money("freight", "Freight", "Freight."),
        _money("tax", "Tax", "Tax."),
        _money("total", "Total", "Total."),
        Column("valid_until", "Valid until", "date", help="Last day on which the quotation holds."),
        _text("workbook", "Workbook", "Path of the site's workbook in the output folder."),
        _whole("posts_with_kit", "Posts with a kit", "Posts that have a kit."),
        _whole("posts_to_confirm", "Posts to confirm", "Posts with a kit of whose fit something is to be confirmed."),
        _whole("posts_strength_open", "Strength open", "Posts with a kit whose strength a licensed engineer must look at."),
        Column("promise", "Promise", "choice", values=PROMISES, help="What became of the quotation; blank where nothing is recorded."),
    ),
    key=("site_code",),
)

_MONEY_COLUMNS = (
    _money("net", "Net", "Goods and services."),
    _money("freight", "Freight", "Freight."),
    _money("tax", "Tax", "Tax."),
    _money("total", "Total", "Total."),
)
_OF_A_SITE = _code("site_code", "Site", "The site, where no customer is named; else blank.")

CUSTOMERS = Table(
    "customers",
    "one customer, quoted over all its sites",
    (
        _text("customer", "Customer", "Whom the quotation is for; blank for a site that names no customer."),
        _whole("revision", "Revision", "Revision number of the customer's quotation."),
        Column("state", "State", "choice", values=SITE_STATES, help="That of its sites' states which is farthest from ready."),
        _whole("sites", "Sites", "Sites of the customer."),
        _whole("posts", "Posts", "Posts of its sites, held rows included."),
        _whole("posts_with_kit", "Posts with a kit", "Posts that get a kit."),
        _whole("rows_held", "Rows held", "Rows that wait for a correction."),
        *_MONEY_COLUMNS,
        Column("valid_until", "Valid until", "date", help="Last day on which the quotation holds."),
        _text("workbook", "Workbook", "Path of the customer's quotation in the output folder."),
        _OF_A_SITE,
    ),
)

OPTIONS = Table(
    "options",
    "what one customer's quotation would come to under one choice",
    (
        _text("customer", "Customer", "Whom the quotation is for; blank for a site that names no customer."),
        _OF_A_SITE,
        Column("choice", "Choice", "choice", needed=True, values=CHOICES, help="What is wanted of several kits that fit."),
        Column("in_force", "In force", "flag", needed=True, help="Whether the quotation is made under this choice."),
        _whole("posts_with_kit", "Posts with a kit", "Posts that get a kit."),
        *_MONEY_COLUMNS,
    ),
)

POSTS = Table(
    "posts",
    "one quoted survey row",
    (
        _SITE,
        _POST,
        _whole("quantity", "Posts", "Posts that the row stands for."),
        _text("post_shape", "Shape", "Round, square or other."),
        _length("post_size_m", "Size", "Outside size."),
        _length("post_size_uncertainty_m", "Size +-", "Bound on the size's error."),
        _length("post_height_m", "Height", "Height above ground."),
        _length("post_height_uncertainty_m", "Height +-", "Bound on the height's error."),
        _length("court_rise_m", "Court above ground", "Playing surface above the ground at the post."),
        Column("lean_deg", "Lean", "angle", "deg", help="Lean from plumb."),
        _length("wall_m", "Wall", "Stated wall; blank where it is not known."),
        Column("wind_speed_m_s", "Wind speed", "speed", "m/s", help="Design gust speed in force."),
        _text("exposure", "Exposure", "Wind exposure in force."),
        _length("target_ring_height_m", "Target ring height", "Greatest wanted ring height."),
        Column("outcome", "Outcome", "choice", values=(*VERDICTS[:3], "no_kit"), help="The recommended kit's verdict, or no_kit."),
        _code("mount", "Mount", "Recommended mount."),
        _code("board", "Board", "Recommended board."),
        _code("ring", "Ring", "Recommended ring."),
        _code("extension", "Extension", "Extension that the recommended kit needs."),
        _length("ring_height_max_m", "Greatest ring height", "Greatest ring height of the recommended mount, without extension."),
        _length("shortfall_m", "Shortfall", "Shortfall of the recommended mount, without extension."),
        _text("remedy", "Remedy", "Least change that would give a kit, where none fits."),
    ),
    key=("site_code", "post_code"),
)

MOUNT_FIT = Table(
    "mount_fit",
    "one quoted post with one active mount",
    (
        _SITE,
        _POST,
        _code("mount", "Mount", "Mount."),
        Column("verdict", "Verdict", "choice", values=VERDICTS, help="Verdict of the post with the mount."),
        _text("failed", "Failed", "Codes of failed findings, ; between."),
        _text("confirm", "Confirm", "Codes of findings to confirm, ; between."),
        _length("ring_height_max_m", "Greatest ring height", "Without extension."),
        _length("shortfall_m", "Shortfall", "Target less greatest ring height, 0 within the tolerance."),
        _code("extension", "Extension", "Extension that makes the shortfall up."),
        _length("extension_added_m", "Added height", "Height that the extension adds; blank without one."),
        _whole("ring_heights_covered", "Heights covered", "Wanted ring heights that the mount serves."),
        _whole("ring_heights_wanted", "Heights wanted", "Wanted ring heights."),
    ),
    key=("site_code", "post_code", "mount"),
)

KITS = Table(
    "kits",
    "one kit that may be sold for one quoted post",
    (
        _SITE,
        _POST,
        _whole("rank", "Rank", "1 is recommended."),
        Column("verdict", "Verdict", "choice", values=VERDICTS[:3], help="Verdict of the kit."),
        _text("confirm", "Confirm", "Codes of findings to confirm, ; between."),
        _code("mount", "Mount", "Mount."),
        _code("board", "Board", "Board."),
        _code("ring", "Ring", "Ring."),
        _code("extension", "Extension", "Extension."),
        _whole("ring_heights_covered", "Heights covered", "Wanted ring heights that the kit serves."),
        Column("load_state", "Load", "choice", values=LOAD_STATES, help="Rough load against the post's rough strength."),
        Column("utilisation_play", "Play utilisation", "number", help="Share of strength in play; INF where the post is too slender for this screen."),
        Column("utilisation_storm", "Storm utilisation", "number", help="Share of strength in storm."),
        Column("moment_play_N_m", "Play moment", "moment", "N m", help="First-order moment at the ground in play."),
        Column("moment_storm_N_m", "Storm moment", "moment", "N m", help="First-order moment at the ground in storm."),
        _length("wall_needed_m", "Wall needed", "Least stated wall at which the worse case is just carried."),
        _length("footing_depth_needed_m", "Footing depth needed", "Depth of footing that the screen asks for."),
        _length("ring_sag_m", "Ring deflection", "How far the ring's centre goes down under the hanging load."),
        Column("hung_mass_kg", "Hung mass", "mass", "kg", help="Mass of mount, board, ring and extension."),
        _money("unit_price", "Unit price", "List prices of the kit with the services that apply, one post."),
    ),
    key=("site_code", "post_code", "rank"),
)

EXTENSIONS_NEEDED = Table(
    "extensions",
    "one row whose recommended kit needs an extension",
    (
        _SITE,
        _POST,
        _whole("quantity", "Posts", "Posts, and so extensions."),
        _code("mount", "Mount", "Recommended mount."),
        _length("shortfall_m", "Shortfall", "Without extension."),
        _code("extension", "Extension", "Extension."),
        _length("extension_added_m", "Added height", "Height that it adds."),
        _text("joint", "Joint", "Sleeve or spigot."),
        _length("upper_size_m", "Upper size", "Outside size of its upper tube."),
    ),
    key=("site_code", "post_code"),
)

QUOTE_LINES = Table(
    "quote_lines",
    "one line of a quotation",
    (
        _SITE,
        Column("kind", "Kind", "choice", values=("goods", "service", "freight"), help="Goods, service or freight."),
        _code("item", "Item", "Code of the item."),
        _text("description", "Description", "What it is."),
        _whole("quantity", "Quantity", "How many."),
        _money("list_price", "List price", "List price of one."),
        _money("unit_price", "Unit price", "Price of one at this quantity."),
        Column("discount_percent", "Discount", "percent", "%", help="Customer's discount on the line."),
        _money("line_total", "Line total", "Line total."),
    ),
)

QUERIES = Table(
    "queries",
    "one thing that the sender must correct or confirm",
    (
        _text("file", "File", "File as it was given."),
        _text("sheet", "Sheet", "Sheet; blank for text files."),
        _text("cell", "Cell", "Cell."),
        _code("site_code", "Site", "Site code, where it is known."),
        _code("post_code", "Post", "Post code, where it is known."),
        _text("name", "Column", "Name of the column."),
        _text("record", "Row", "The row that it is about, in words (row 7, column D); blank where it is about none."),
        Column("code", "Code", "choice", needed=True, values=tuple(QUERY_CODES), help="Kind of query."),
        Column("message", "Message", "text", needed=True, help="What is wrong."),
        Column("suggestion", "Suggestion", "text", help="What to type instead."),
        Column("holds_row", "Holds row", "flag", needed=True, help="Whether the row waits for the answer."),
    ),
)

WANTED = Table(
    "wanted",
    "one new item that would serve posts which have no kit for want of it alone, the most useful first",
    (
        _whole("rank", "Rank", "1 would serve most posts."),
        Column("kind", "Kind", "choice", values=("mount", "extension"), help="Mount or extension."),
        _text("post_shape", "Shape", "Shape of the posts."),
        _length("size_least_m", "Size least", "Least outside size that it must take."),
        _length("size_most_m", "Size most", "Greatest outside size that it must take."),
        _length("added_m", "Added height", "Least height that an extension must add; blank for a mount."),
        _whole("posts", "Posts", "Posts that it would serve."),
        _whole("sites", "Sites", "Sites at which they stand."),
        _text("site_codes", "Site codes", "Codes of the sites, ; between."),
    ),
    key=("rank",),
)

READINGS = Table(
    "readings",
    "one value that was not typed in the cell itself, and where it comes from",
    (
        _text("file", "File", "File as it was given."),
        _text("sheet", "Sheet", "Sheet; blank for text files."),
        _text("cell", "Cell", "Cell of the row that the value stands for."),
        _code("site_code", "Site", "Site code."),
        _code("post_code", "Post", "Post code."),
        _text("name", "Column", "Name of the column."),
        _text("typed", "Typed", "What was typed, there or where it comes from."),
        _text("taken_as", "Taken as", "What it was taken as, SI."),
        Column("how", "How", "choice", needed=True, values=tuple(HOW_READ), help="Where it comes from."),
    ),
)

CHANGES = Table(
    "changes",
    "one reason for which a quotation changed since the last finished run",
    (
        _SITE,
        _whole("revision_was", "Revision before", "Revision before; blank for a new site."),
        _whole("revision", "Revision", "Revision now; blank where the site is no longer asked for."),
        _text("kind", "Kind", "Kind of change."),
        _text("item", "Item", "What changed: an item, a setting, a cell."),
        _text("was", "Was", "Before."),
        _text("now", "Now", "Now."),
        _money("total_was", "Total before", "Total before."),
        _money("total", "Total", "Total now."),
    ),
)

RESULTS: tuple[Table, ...] = (
    SITES, CUSTOMERS, OPTIONS, POSTS, MOUNT_FIT, KITS, EXTENSIONS_NEEDED, QUOTE_LINES, QUERIES, READINGS, CHANGES, WANTED,
)
"""Files of DIR/data, in the order in which the data package lists them."""
