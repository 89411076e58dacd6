"""The demo's arithmetic written out on bare floats: the floor that `plan(job)` is measured against. Checked against the plan by a test."""

from math import ceil, exp, log, pi, sin, sqrt

R, G = 8.314462618, 9.80665


def arrhenius(t, ref, energy):
    return exp(-energy / R * (1 / t - 1 / ref))


def magnus(t):
    c = t - 273.15
    return 611.2 * exp(17.62 * c / (243.12 + c))


def mean_support(x, y, z):
    """Carlson's R_G by duplication, seven steps."""
    a, b, c = x, y, z
    total, scale = 0.0, 1.0
    for _ in range(12):
        lam = sqrt(a * b) + sqrt(b * c) + sqrt(c * a)
        total += scale / (sqrt(c) * (c + lam))
        scale /= 4
        a, b, c = (a + lam) / 4, (b + lam) / 4, (c + lam) / 4
    mean = (a + b + c) / 3
    rf, rd = 1 / sqrt(mean), 3 * total + scale / mean**1.5
    return (z * rf - (x - z) * (y - z) * rd / 3 + sqrt(x * y / z)) / 2


def bare():
    """The chief figures of the hare, by name, in SI."""
    v = {}
    smooth = v["original.smooth_area"] = 1.50
    area = v["original.area"] = smooth * 1.12
    flange = v["original.flange_area"] = 2.7 * 0.065
    coat_area = v["original.area_to_coat"] = area + flange
    length, width, height = 1.09, 0.43, 0.525
    box = v["original.box_area"] = length * width + 2 * height * (length + width)
    v["original.box_excess"] = box / area - 1
    curvature = v["original.mean_curvature"] = 4 * pi * mean_support((length / 2) ** 2, (width / 2) ** 2, (height / 2) ** 2)
    t_room, t_night, ref, rho = 292.15, 291.15, 296.15, 1180.0
    factor = v["cure.factor"] = arrhenius(t_room, ref, 45e3)
    working = v["cure.working_time"] = 2400 / factor
    recoat, latest = 7200 / factor, 86400 / factor
    v["cure.earliest_recoat"], v["cure.latest_recoat"], v["cure.demold_time"] = recoat, latest, 57600 / factor
    v["cure.night_factor"] = arrhenius(t_night, ref, 45e3)
    shell = arrhenius(t_night, 293.15, 55e3)
    v["cure.shell_worth"], v["cure.shell_ready"] = 57600 * shell, 57600 / shell
    clock, left = 9 * 3600 + 2150.0, 57600.0
    for until, speed in ((17 * 3600, factor), (32.5 * 3600, v["cure.night_factor"]), (41 * 3600, factor)):
        part = min(left / speed, until - clock)
        clock, left = clock + part, left - part * speed
    v["cure.pot_life"] = 3600 / arrhenius(t_room, 293.15, 55e3)
    pressure = 0.55 * magnus(t_room)
    v["cure.absolute_humidity"] = pressure / (461.5 * t_room)
    gamma = log(pressure / 611.2)
    v["cure.dew_point"] = 273.15 + 243.12 * gamma / (17.62 - gamma)
    usable = v["mixing.usable_time"] = 0.75 * working - 300
    hang_1, hang_2 = rho * G * 0.002, rho * G * 0.005
    power = log(hang_2 / hang_1) / log(0.01 / 0.005)
    net = mixed = growth = inner = thickener = 0.0
    cups, coats = 0, []
    for film, rate, loss, load in ((0.6e-3, 0.02 / 60, 0.12, 0.0), (1.2e-3, 0.04 / 60, 0.08, 0.0),
                                   (2e-3, 0.035 / 60, 0.07, 0.01), (2.2e-3, 0.03 / 60, 0.07, 0.01)):
        outer = inner + film
        growth += rho * (curvature * (outer**2 - inner**2) + 4 / 3 * pi * (outer**3 - inner**3))
        one = film * coat_area * rho
        stress = hang_1 * (load / 0.005) ** power if load else 18.0
        held = min(film, max(stress / (rho * G * sin(pi / 2)), sqrt(30.0 * 0.3 / (rho * G * sin(pi / 2) * working))))
        by_time, by_cup = rate * usable * film * rho, 0.004 * 0.7 * rho * (1 - loss)
        most = min(by_time, by_cup)
        count = ceil(one / most * (1 - 1e-9))
        each = one / count / (1 - loss)
        total = count * each
        coats.append({"net": one, "mixed": total, "cups": count, "each": each, "each_base": each / 1.05, "each_part": each * 0.05 / 1.05,
                      "base": total / 1.05, "part": total * 0.05 / 1.05, "most": most / (1 - loss), "held": held, "thickener": load * total,
                      "each_thickener": load * each, "covers": coat_area / count, "time": (coat_area / rate + count * 300) / 2})
        net, mixed, cups, inner, thickener = net + one, mixed + total, cups + count, outer, thickener + load * total
    v["coats.net"], v["coats.mixed"], v["coats.cups"], v["coats.growth"] = net, mixed, cups, growth
    fills = [1.0e-3, 2.4 * 0.05 * 0.01, 4.5 * (0.025 + 0.015) / 2 * 0.012, 0.35 * 0.004]
    volume = v["paste.volume"] = sum(fills)
    paste_net = v["paste.net"] = volume * rho
    count = ceil(paste_net / (0.76 * 0.92) * (1 - 1e-9))
    each = paste_net / count / 0.92
    paste = v["paste.mixed"] = count * each
    v["paste.cups"], v["paste.each"] = count, each
    v["paste.yield_stress"], v["paste.sag_thickness"] = hang_1 * 2**power, hang_1 * 2**power / (rho * G)
    v["paste.loading_wanted"] = 0.005 * (rho * G * 0.004 / hang_1) ** (1 / power)
    v["paste.density"] = 1.01 / (1 / rho + 0.01 / 2200)
    v["paste.volume_gain"] = 0.01 * rho / 2200
    v["paste.dough_density"] = 1.1 / (1 / 1150 + 0.1 / 200)
    v["paste.dough_volume_gain"], v["paste.dough_filler"] = 0.1 * 1150 / 200, 0.1 / 200 / (1 / 1150 + 0.1 / 200)
    rubber = v["mixing.rubber"] = mixed + paste
    v["mixing.net"] = net + paste_net
    v["mixing.have"], v["mixing.base"], v["mixing.part"] = rubber * 1.1, rubber / 1.05, rubber * 0.05 / 1.05
    v["mixing.loss_share"] = 1 - (net + paste_net) / rubber
    v["mixing.cups"], v["mixing.thickener"] = cups + count, thickener + 0.01 * paste
    v["coats.per_area"], v["coats.mean_thickness"] = (net + paste_net) / area, (net + paste_net) / coat_area / rho
    reading = 1e-3 / sqrt(6)
    v["mixing.smallest_base"] = 2 * reading / 0.05 * sqrt(1 + 1 / 0.05**2)
    base = min(row["each"] for row in coats) / 1.05
    v["mixing.ratio_error"] = 2 * sqrt((reading / base) ** 2 + (reading / (0.05 * base)) ** 2)
    v["mixing.volume_ratio"] = 0.05 * 1200 / 980
    ply = v["layup.ply_thickness"] = 0.3 / 2560 + 0.3 / 1150
    wall = v["layup.areal_mass"] = 0.6e-3 * 1250 + 1.2 / 0.5 + 0.85 * 0.01 * 75 + 0.5
    v["layup.thickness"] = 0.6e-3 + 4 * ply + 0.01
    rim = v["layup.flange_areal_mass"] = 8 * 0.3 / 0.5
    bare_mass = glass = resin = core = face_area = rim_area = 0.0
    sections = []
    for face, joint, foot in ((0.32, 1.25, 0.55), (0.24, 1.05, 0.45), (0.61, 1.85, 0.85), (0.61, 1.85, 0.85)):
        edge = (joint + foot) * 0.06
        steps = [(face * m * 1.12, ceil(face * m * 1.12 / min(0.26, 0.03 / 60 * 2600 * m) * (1 - 1e-9))) for m in (0.75, 0.6, 1.1)]
        steps.append((edge * 2.4 * 1.12, ceil(edge * 2.4 * 1.12 / 0.26 * (1 - 1e-9))))
        steps = [(m, n, m / n, m / n / 1.3, m / n * 0.3 / 1.3) for m, n in steps]
        mass = face * wall + edge * rim
        sections.append({"mass": mass, "steps": steps, "largest": max(steps), "strips": ceil(face / (0.12 * 0.47))})
        bare_mass, glass, resin = bare_mass + mass, glass + face * 1.2 + edge * 2.4, resin + face * (0.75 + 1.2 + 0.5) + edge * 2.4
        core, face_area, rim_area = core + face * 0.85, face_area + face, rim_area + edge
    v["layup.bare_mass"], v["layup.glass"], v["layup.resin"], v["layup.core_area"] = bare_mass, glass, resin, core
    v["layup.mass"], v["layup.glass_to_buy"], v["layup.resin_to_buy"], v["layup.core_to_buy"] = bare_mass + 2, glass * 1.12, resin * 1.12, core * 1.15
    v["layup.gypsum_mass"] = face_area * 0.02 * 1100
    stiffness = v["layup.stiffness"] = 12e9 * 2 * ply * (0.01 + 2 * ply) ** 2 / 2
    v["layup.solid_equal_thickness"] = (12 * stiffness / 12e9) ** (1 / 3)
    v["handling.bolts"] = sum(ceil(joint / 0.15 * (1 - 1e-9)) + 1 for joint in (0.7, 1.25, 1.05))
    v["handling.foot_bolts"] = ceil(2.7 / 0.2 * (1 - 1e-9))
    mold = v["handling.mold_mass"] = bare_mass + 2 + net + paste_net
    v["original.board_load"] = 75 + mold
    cast = v["casting.cast_mass"] = area * 0.012 * 2000
    v["handling.mold_with_cast"] = mold + cast + 3
    v["casting.edition"], v["casting.edition_mixed"] = 6 * cast, 6 * cast / 0.94
    v["casting.solid_mass"], v["casting.head_pressure"] = 0.084 * 2050, 2050 * G * 0.525
    v["casting.side_thrust"] = 2050 * G * 0.39 * 0.245
    v["casting.length_after_shrinkage"] = 1.09 * (1 - 0.003)
    return v
