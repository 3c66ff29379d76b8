"""Groups of verdicts, as ``check --only`` takes them."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.cli.options import refuse


def groups_named(typed: Sequence[str]) -> tuple[str, ...]:
    """Groups as they are called, whatever case they were typed in; one that is not there is refused with a near one."""
    from difflib import get_close_matches

    from hushwright.verdicts.judge import GROUPS

    known = {group.casefold(): group for group in GROUPS}
    found = []
    for name in typed:
        if name.casefold() not in known:
            near = get_close_matches(name.casefold(), known, n=2)
            hint = f"perhaps {' or '.join(known[one] for one in near)}?" if near else f"there are {', '.join(GROUPS)}."
            refuse(f"No group of verdicts is called {name!r}; {hint}")
        found.append(known[name.casefold()])
    return tuple(dict.fromkeys(found))
