"""From the finished part to the flat blank: developed length, marks, holes and tolerance."""
