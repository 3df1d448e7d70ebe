"""What the bench book says of each kind of thing that the studio calls its own."""
