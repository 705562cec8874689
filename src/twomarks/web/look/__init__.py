"""What every page is made of: the base page, its styles, sheets, stubs, marks and pictures."""
