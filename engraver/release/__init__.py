"""What is sold: editions, buyers' copies and checksums, in a folder and an archive. Knows bound books, no music."""
