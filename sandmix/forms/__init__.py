"""The forms, a file a job: which words it asks, the rules between them, and what is settled before it is computed."""
