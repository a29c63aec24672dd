"""General mathematics that knows nothing of sand: uncertainty, statistics, linear programmes, conduction."""
