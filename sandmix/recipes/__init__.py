"""What to weigh in: mixing, tempering, restoring, blending, buying, and what a habit leads to."""
