"""The independent answer: contract and design worked through post by post, mount by mount, kit by kit.

Slow, scalar and plain on purpose; it shares no code with the pipeline.

AMBIGUITIES: where the design or the contract can be read in two ways, the reading taken here, and why.

 1. HEIGHT's confirm band, -(tol + u) <= margin < -tol: no extension is looked for ("below: an extension
    is needed"), the shortfall is still reported (section 5: "where margin < -tol"), z_top is z_max and
    the target is not counted as covered. Where margin lies below the band, an estimate confirms HEIGHT
    only together with an extension.
 2. A nominal size whose `Measured with` is blank or any tool has 1 % of D ("pipe mark or nominal size");
    with `estimate` it is an estimate, 6 mm. A size that is nominal cannot have been ruled or taped.
 3. A circumference with `Measured with` blank takes the blank's default, rule across, 1.6 mm on D: the
    table goes by `Measured with` alone. (0.5 mm would also make sense: only a tape goes round.)
 4. `Court above ground` typed as 0 is stated, and adds its 6 mm; blank is not, and does not.
 5. A driven post's footing is its own size even where a footing diameter is typed.
 6. "On board and post" of the least wind pressure: the extension is part of the post.
 7. utilisation_play is the greater of hang's and push's utilisation, each with its own axial force;
    moment_play the greater of the two moments. They may come from different cases.
 8. Walls beyond F8's or the square's limit: load_state unknown, so both utilisations are blank. While
    wall_needed is sought, such a wall counts as carrying nothing.
 9. wall_needed with an extension: the ground line only, at L = H + added, joint left out.
10. Confirm codes are listed on failed pairs too; they are findings all the same.
11. CLEAR where HEIGHT fails: x = 0, asked of the post. With an extension it passes by construction.
12. Codes in ties (kits, extensions) compare as plain text, not in natural order.
13. The slack holds wherever the design compares lengths, `covered` and the choice of extension included;
    for lean_limit, an angle, 1e-9 rad. Equal added heights are equal within 1e-9 m.
14. `posts` and `posts_quoted` of a site count posts (quantity), not rows.
15. Services are charged only for posts that get a kit. A site without any kit has no freight line.
16. The site's customer is the first that its rows name.
17. Axial force: only the hanging load and the weights; no load factor in the storm case either. The post's
    own steel counts over H, not over L. The amplification B multiplies the whole first-order moment.
18. The extension's window holds D itself, without its uncertainty; a stated wall as stated, not the
    design wall, makes the bore.
19. JOINT's confirm does not push a spigot behind a sleeve: least added height comes first all the same.
20. An asked-for item that is unknown or withdrawn differs from every kit, so it moves no rank.
21. FOOTING compares the stated depth with the slack; on a base plate there is nothing to compare.
22. A sleeve or spigot laps `Joint length` of the post: asked of the post's clear length, also where the
    clear length was left blank and is the post's height.
23. One board: only kits that are not over count, for the posts offered and for the least price alike. Posts on which an
    item was asked for count as well.
24. Widths and ranges of heights that agree to a nanometre are equal, so that the unit they were typed in decides nothing.
25. A customer that is not listed is known by its name without case and spaces; one that names none is a site of its own.
"""
