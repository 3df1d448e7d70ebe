"""One function for each thing a person does. The command line and the screens both call these."""
