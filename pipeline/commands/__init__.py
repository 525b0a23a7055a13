"""What each command does; arguments are read in `pipeline.cli`, errors become messages in `messages`."""
