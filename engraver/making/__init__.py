"""A book's folder in, bound editions out: texts go to the press, engraved sheaves are gathered and bound."""
