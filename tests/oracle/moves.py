"""What a move does to a configuration, and what it asks for before it is made.

For: the walk.  Moves are (verb, what, how): ("set", NAME, POSITION), ("release", PART, None), ("couple", END, END),
("uncouple" | "cap" | "uncap" | "lift", END, None), ("dip", END, VESSEL), ("place", VESSEL, NODE),
("take", VESSEL, None).
"""


def named_by(move):
    """The things a move names, which must be there for it to act and which must be within reach."""
    verb, what, how = move
    if verb == "couple":
        return [what, how]
    if verb == "place":
        return [what, how]
    return [what]


def reached_for(move):
    """What the operator must get at: parts, covers and ends; vessels and what they stand under are not asked about."""
    verb, what, how = move
    if verb in ("place", "take"):
        return []
    return [what, how] if verb == "couple" else [what]


def after(network, sigma, move):
    """The configuration after the move."""
    verb, what, how = move
    new = dict()

    def let_go(end):
        value = sigma[network.index[end]]
        if isinstance(value, tuple) and value[0] == "coupled":
            new[value[1]] = "open"

    if verb == "set":
        new[what] = how
    elif verb == "release":
        new[what] = network.instances[what].kind.springs_back
    elif verb == "couple":
        let_go(what)
        let_go(how)
        new[what] = ("coupled", how)
        new[how] = ("coupled", what)
    elif verb == "uncouple":
        if is_coupled(sigma[network.index[what]]):
            let_go(what)
            new[what] = "open"
    elif verb == "cap":
        let_go(what)
        new[what] = "capped"
    elif verb == "uncap":
        if sigma[network.index[what]] == "capped":
            new[what] = "open"
    elif verb == "dip":
        let_go(what)
        new[what] = ("in", how)
    elif verb == "lift":
        value = sigma[network.index[what]]
        if isinstance(value, tuple) and value[0] == "in":
            new[what] = "open"
    elif verb == "place":
        new[what] = ("under", how)
    elif verb == "take":
        new[what] = "away"
    else:
        raise ValueError(verb)
    changed = list(sigma)
    for name, value in new.items():
        changed[network.index[name]] = value
    return tuple(changed)


def is_coupled(value):
    return isinstance(value, tuple) and value[0] == "coupled"


def guards_broken(state, move, changes):
    """The guards that fail before a move; those of a position only if the move changes it."""
    network = state.network
    sigma = state.layout.sigma
    verb, what, how = move
    broken = []
    if changes and verb in ("set", "release") and what in network.instances:
        instance = network.instances[what]
        position = how if verb == "set" else instance.kind.springs_back
        for number, (when, guarded, needs) in enumerate(instance.guards):
            if when == "set" and guarded == position and not state.holds(needs):
                broken.append(("guard", what, number))
    wanted = {"couple": {what: ("coupled", how), how: ("coupled", what)}, "cap": {what: "capped"},
              "dip": {what: ("in", how)}}.get(verb, {})
    broken += [("guard", end, "not open") for end, value in wanted.items()
               if sigma[network.index[end]] not in ("open", value)]
    return broken


def within_reach(network, sigma, name):
    """Whether from some place every cover, and every cover over it, is open."""
    covers = {c.name: c for c in network.system.covers}
    path = network.owner_of(name)
    if path:
        places = [list(behind) for _, behind in network.instances[path].places]
    elif name in covers:
        places = [list(covers[name].behind)]
    else:
        return True

    def all_open(behind):
        return all(sigma[network.index[c]] == "open" and all_open(covers[c].behind) for c in behind)

    return any(all_open(behind) for behind in places)
