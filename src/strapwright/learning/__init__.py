"""From what was read at the press to what is known of bar, press and tooling: values in and out."""
