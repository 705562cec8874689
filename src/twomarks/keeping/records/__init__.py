"""The tables, one file per subject. Only services write them; questions read them; nothing else imports them."""
