"""The programs outside that judge: where they are, and what they say."""
