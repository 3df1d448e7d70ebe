"""Pictures drawn in characters: plain functions of what is shown and of how much room there is.

Nothing is told by colour alone: every sign is explained beneath, and what matters is written out.
"""
