"""The stages of a run, in the order in which `pipeline.run.story` calls them."""
