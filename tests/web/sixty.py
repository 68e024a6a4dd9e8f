"""A system of sixty parts in six places: the largest that the drawings are promised to be readable for. One of the
places holds twenty of the parts, so that its drawing has to be parted."""

ZONES = [("cellar", 6), ("kitchen", 20), ("bath", 10), ("loft", 8), ("yard", 8), ("stable", 8)]


def system():
    lines = ["use water", 'system farm "Farm of sixty parts" {']
    lines += [f'  zone {zone} "{zone.capitalize()}"' for zone, _ in ZONES]
    lines += ["  place ground_drain at cellar accepts drinking_water", '  part main : mains_stop "Main stop valve" at cellar']
    runs, valves = [], []
    last = "main.house"
    for zone, count in ZONES:
        valve = f"{zone}_valve"
        valves.append(valve)
        lines.append(f'  part {valve} : shut_off "{zone.capitalize()} stop valve" at {zone}')
        runs.append(f"  run {last} - {valve}.inlet : copper_15 3 m")
        last = f"{valve}.outlet"
        first = 2 if zone == "cellar" else 1
        for i in range(first, count):
            tee = f"{zone}_tee_{i}"
            lines += [f'  part {zone}_tap_{i} : tap "{zone.capitalize()} tap {i}" at {zone} over ground_drain',
                      f"  tee {tee}"]
            runs += [f"  run {last} - {tee} : copper_15 1 m", f"  run {tee} - {zone}_tap_{i}.water : copper_15 0.5 m"]
            last = tee
    lines += runs + ["}"]
    lines += ['procedure shut "Shut the farm off" on farm {', "  requires all taps are shut", '  stage "Valves" {',
              '    step "Shut the main stop valve" { set main to shut }']
    lines += [f'    step "Shut the stop valve: {valve}" {{ set {valve} to shut }}' for valve in valves]
    return "\n".join([*lines, "  }", "}", ""])


if __name__ == "__main__":
    print(system(), end="")
