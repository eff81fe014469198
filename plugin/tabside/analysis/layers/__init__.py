"""What is known of a craft, one layer on another: each knows all that is known below it, and asks nothing above it."""
