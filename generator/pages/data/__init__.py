"""What the browser is given: one room, one spelling."""
