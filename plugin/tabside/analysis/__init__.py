"""What is true of a craft: worked out once, handed to rules, making and proving."""
