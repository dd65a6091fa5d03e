"""What an author wrote, as records that know where they stand in their files."""
