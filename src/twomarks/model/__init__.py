"""The documents and the plain values of the ledgers: validated types; knows no engineering."""
