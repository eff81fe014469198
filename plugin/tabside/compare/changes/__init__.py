"""What differs between two drawings, each as one `Change` with what to do about it on the bench."""
