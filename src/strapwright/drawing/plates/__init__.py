"""What stands beside the face of a plate on its drawing."""
