"""Settings of one reader: units per quantity, market, tone, full sun, keys."""
