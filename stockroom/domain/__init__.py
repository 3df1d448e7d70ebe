"""What a stockroom is: frozen values, one noun a file."""
