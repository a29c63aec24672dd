"""A shape as a mesh, in reading order: facets, files, whether it is closed, seen by rays, its shells, gaps, undercut, outlines, measures."""
