"""``python3 -m sandmix``: works from a bare checkout."""

from .cli import main

raise SystemExit(main())
