"""The screens: Textual over the same actions as the command line."""
