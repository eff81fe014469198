"""Which leads each net has, and what belongs together."""
