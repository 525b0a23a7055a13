"""`python -m pipeline` is the command `postquote`."""

from pipeline.cli import main

main(prog_name="postquote")
