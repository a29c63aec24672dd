"""General mathematics that knows nothing of sand: statistics, uncertainty, linear programmes, conduction."""
