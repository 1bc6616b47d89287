"""Words for drawings: what cannot be laid out, and what is drawn otherwise than stated."""
