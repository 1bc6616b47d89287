"""What the pages show and ask: fields, forms, the job that is open, plans and searches as shown."""
