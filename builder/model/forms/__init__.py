"""Record types -> their forms, and forms -> words: fresh records, schemas and the writing guide are made from these."""
