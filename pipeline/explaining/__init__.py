"""`postquote explain`: the working for one post, put in words; figures come from the same functions as the files."""
