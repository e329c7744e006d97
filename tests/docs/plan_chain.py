"""A plan made a second time: each calculation called by itself, and what it takes from the others said here.  What the
plan looks for is found by trying everything.  job_plan is not asked."""
import math

import ungula
from plan_sheets import ASKED, CONTRACTS, OUTLINE, SIDES, STEPS

LACKS = None  # a step that did not run for want of a value


def lower(calculation, field):
    return next(f["lower"] for f in CONTRACTS[calculation]["inputs"] if f["name"] == field)


class Chain:
    """Results by step; sheet: values by the plan's names, stations and trace as the sheet's reader gives them."""
    def __init__(self, sheet, trace=None, stations=None, screws=None):
        self.sheet, self.r = dict(sheet), dict.fromkeys([*OUTLINE, *STEPS], LACKS)
        self.places, self.left_out = {}, set()
        if trace is not None:
            self.outline(trace, stations, screws)
        else:
            self.step("belt", low_mm=self.get("low_mm", -self.get("shoe_thickness_mm")))
            self.measures = dict(perimeter_mm="perimeter_mm", ground_area_mm2="ground_area_mm2",
                                 circumference_low_mm="circumference_low_mm", bonded_area_mm2="bonded_area_mm2",
                                 circumference_high_mm="circumference_high_mm", band_height_mm="slant_height_mm",
                                 wood_area_mm2="shoe_area_mm2", top_area_mm2="covered_area_mm2")
            self.measures = {name: self.of("belt", own) for name, own in self.measures.items()}
        self.walls_and_screws()
        self.tape_and_adhesive()
        self.load()
        self.hold()
        self.weeks()
        self.day()

    # Values

    def get(self, name, otherwise=None):
        """On the sheet; otherwise what stands in; otherwise the standard value."""
        if name in self.sheet:
            return self.sheet[name]
        return otherwise if otherwise is not None else ASKED[name]["field"]["standard"] if name in ASKED else None

    def of(self, step, field):
        return None if self.r[step] is LACKS else getattr(self.r[step], field)

    def call(self, calculation, **wired):
        """What was wired, otherwise the sheet's value by the plan's name for it, otherwise the standard value."""
        given = {}
        for f in CONTRACTS[calculation]["inputs"]:
            names = [name for name, each in ASKED.items() if (each["of"], each["original"]) == (calculation, f["name"])]
            own = next((name for name in names if name[:6] != "other_"), f["name"])
            value = wired[f["name"]] if f["name"] in wired else self.sheet.get(own)
            if value is not None:
                given[f["name"]] = value
            elif f["standard"] is None or (f["name"] in wired and wired[f["name"]] is None):
                return LACKS
        lists = {name: value for name, value in wired.items() if name not in given}
        return getattr(ungula, calculation)(**given, **lists)

    def step(self, name, **wired):
        self.r[name] = self.call(STEPS.get(name) or OUTLINE[name], **wired)

    # On a traced outline

    def outline(self, trace, stations, screws):
        self.step("fit", trace=trace, outline_count=2000)
        points = self.r["fit"].outline.rows
        quarter = self.sheet.get("quarter_angle_deg")
        quarters = {f"{side}_quarter_angle_deg": self.sheet.get(f"{side}_quarter_angle_deg", quarter) for side in SIDES}
        self.step("band", outline=points, low_mm=self.get("low_mm", -self.get("shoe_thickness_mm")),
                  **{name: value for name, value in quarters.items() if value is not None})
        band = self.r["band"]
        self.measures = dict(perimeter_mm=band.perimeter_mm, ground_area_mm2=band.ground_area_mm2,
                             circumference_low_mm=band.circumference_low_mm, bonded_area_mm2=band.bonded_area_mm2,
                             circumference_high_mm=band.circumference_high_mm, band_height_mm=band.slant_height_mm,
                             wood_area_mm2=band.shoe_area_mm2, top_area_mm2=band.covered_area_mm2)
        self.left_out.add("belt")
        direction = self.sheet.get("toe_direction_deg", 0)

        def place(side, share):
            return ungula.outline_at(outline=points, toe_direction_deg=direction, left_side_count=side == "left",
                                     side_fraction=share)

        walls = sorted((place(side, share).around_fraction, *wall) for (side, share), wall in stations.items())
        self.step("profile", stations=walls, profile_count=1)
        for side in SIDES:
            length = place(side, 0).side_length_mm
            shares = [share for other, share in stations if other == side or share in (0, 1)]
            rows = []
            for k in range(int(length / 5) + 1):
                if min(shares) <= 5 * k / length <= max(shares):
                    at = ungula.wall_profile(stations=walls, profile_count=1,
                                             start_fraction=place(side, 5 * k / length).around_fraction)
                    wall = at.profile.rows.tolist()[0]
                    rows.append((5 * k / length, 5 * k, wall[1], wall[2], self.get("sole_horn_mm")))
            self.places[side] = rows
            self.step(side, stations=rows, screws_count=screws, screw_diameter_mm=self.diameter())
        self.stand_in(place)

    def stand_in(self, place):
        """The weakest screw of a side stands for it."""
        count = {side: self.r[side].placed_count for side in SIDES}
        used = [side for side in SIDES if count[side]]
        self.sheet["screw_count"] = sum(count.values())
        for prefix, side in zip(("", "other_"), used):
            screw = self.r[side].screws.rows.tolist()[int(self.r[side].weakest_count) - 1]
            names = [f["name"] for f in CONTRACTS["screw_layout"]["lists"][1]["fields"]]
            screw = dict(zip(names, screw))
            wall = next(row for row in self.places[side] if row[1] == screw["from_toe_mm"])
            self.sheet.update({f"{prefix}wall_thickness_mm": wall[2], f"{prefix}wall_angle_deg": wall[3],
                               f"{prefix}inset_mm": screw["inset_mm"], f"{prefix}tilt_deg": screw["tilt_deg"]})
        if len(used) == 2:
            self.sheet["other_screw_count"] = count[used[1]]

    # The steps of the plan

    def diameter(self):
        if self.r["gauge"] is LACKS and "gauge_count" in self.sheet:
            self.step("gauge")
        return self.get("screw_diameter_mm", self.of("gauge", "screw_diameter_mm"))

    def walls_and_screws(self):
        self.way, self.foam = self.get("screw_way_count"), self.get("foam_count")
        self.driven = self.way > 0 and not self.foam
        self.two = any(name.startswith("other_") for name in self.sheet)
        if "wall_thickness_mm" not in self.sheet:
            self.step("wall")
        self.thick = self.get("wall_thickness_mm", self.of("wall", "wall_thickness_mm"))
        if "other_border_width_mm" in self.sheet:
            self.step("other_wall", border_width_mm=self.sheet["other_border_width_mm"],
                      wall_angle_deg=self.get("other_wall_angle_deg", self.get("wall_angle_deg")))
        self.diameter()
        if "species_count" in self.sheet and not self.foam:
            self.step("wood")
        sides = [("", self.thick)]
        if self.two:
            there = self.get("other_wall_thickness_mm", self.of("other_wall", "wall_thickness_mm"))
            sides.append(("other_", self.thick if there is None else there))
        if not self.driven:
            return
        if self.way == 1 or "inset_mm" in self.sheet:
            self.from_shoe(sides)
        if self.way == 2 or self.get("dip_deg") is not None:
            self.through_wall(sides)
        self.step("lead", screw_diameter_mm=self.diameter(), root_diameter_mm=self.gauged("root_diameter_mm"),
                  head_diameter_mm=self.gauged("head_diameter_mm"), **self.gravity())

    def gauged(self, name):
        return self.get(name, self.of("gauge", name))

    def gravity(self):
        value = self.get("wood_gravity_ratio", self.of("wood", "wood_gravity_ratio"))
        return {} if value is None else {"wood_gravity_ratio": value}

    def side_value(self, prefix, name):
        return self.get(prefix + name, self.get(name)) if prefix else self.get(name)

    def stock(self, limit):
        step = self.get("stock_step_mm")
        return max((k * step for k in range(1, 1000) if k * step <= limit), default=None)

    def from_shoe(self, sides):
        each = [dict(wall_thickness_mm=thick, screw_diameter_mm=self.diameter(),
                     **{name: self.side_value(prefix, name) for name in ("wall_angle_deg", "sole_horn_mm", "inset_mm",
                                                                         "tilt_deg")}) for prefix, thick in sides]
        length = self.get("screw_length_mm") if self.way == 1 else None
        if length is None:
            shortest = lower("screw_depth", "screw_length_mm")
            tried = [self.call("screw_depth", screw_length_mm=shortest, **side) for side in each]
            lengths = [self.stock(t.screw_length_limit_mm) if t.margin_mm >= 0 else None for t in tried]
            reach = [length for length, side in zip(lengths, each) if length and self.call(
                "screw_depth", screw_length_mm=length, **side).embedded_mm > 0]
            length = min(reach, default=shortest)
        for (prefix, _), side in zip(sides, each):
            self.step(prefix + "screw", screw_length_mm=length, **side)

    def through_wall(self, sides):
        standard = next(f["standard"] for f in CONTRACTS["screw_through"]["inputs"] if f["name"] == "inner_margin_mm")
        top = min(self.get("high_toe_mm"), self.get("high_heel_mm"))
        given = self.get("screw_length_mm") if self.way == 2 else None
        shortest = lower("screw_through", "screw_length_mm")
        each = []
        for prefix, thick in sides:
            side = dict(wall_thickness_mm=thick, screw_diameter_mm=self.diameter(), belt_top_mm=top,
                        head_recess_mm=self.get("wall_recess_mm"),
                        inner_margin_mm=max(standard, self.get("inner_margin_mm")),
                        **{name: self.side_value(prefix, name)
                           for name in ("wall_angle_deg", "sole_horn_mm", "dip_deg")})

            def longest(entry):
                tried = self.call("screw_through", entry_height_mm=entry, screw_length_mm=shortest, **side)
                stock = self.stock(tried.longest_mm)
                return stock if stock and stock >= max(shortest, tried.shortest_mm) and tried.longest_mm > 0 else None

            def margin(entry):
                length = longest(entry) if given is None else given
                return -math.inf if length is None else self.call("screw_through", entry_height_mm=entry,
                                                                  screw_length_mm=length, **side).margin_mm

            side["entry_height_mm"] = self.side_value(prefix, "entry_height_mm")
            if side["entry_height_mm"] is None:
                window = self.call("screw_through", **{**side, "entry_height_mm": 5, "screw_length_mm": shortest})
                tried = range(max(2, math.ceil(window.entry_low_mm)), math.floor(min(window.entry_high_mm, top)) + 1)
                del side["entry_height_mm"]
                side["entry_height_mm"] = max(tried, key=margin)
            entry = side.pop("entry_height_mm")
            each.append((prefix, {**side, "entry_height_mm": entry}, longest(entry)))
        lengths = [length for _, _, length in each if length]
        length = given if given is not None else min(lengths, default=shortest)
        for prefix, side, _ in each:
            self.step(prefix + "through", screw_length_mm=length, **side)

    def tape_and_adhesive(self):
        m, cast = self.measures, self.get("cast_count")
        for name, width in (("tape", self.get("tape_width_mm")), ("narrow_tape", 50.8), ("wide_tape", 76.2)):
            if cast:
                self.wrap(name, tape_width_mm=width, circumference_low_mm=m["circumference_low_mm"],
                          circumference_high_mm=m["circumference_high_mm"], band_height_mm=m["band_height_mm"])
        self.step("glue", bonded_area_mm2=m["bonded_area_mm2"], wood_area_mm2=m["wood_area_mm2"],
                  top_area_mm2=m["top_area_mm2"] if cast else 0)
        laps = cast and self.get("build_length_mm") > 0
        self.step("bevel", build_up_mm=self.r["tape"].thickness_mm if laps else 0)
        self.step("packing")
        self.step("dam")

    def wrap(self, name, **wired):
        """The fewest passes that are thick enough, and what the rolls opened for them still give."""
        if "passes_count" in self.sheet:
            self.step(name, **wired)
            return
        tried = {n: self.call("cast_length", passes_count=n, **wired) for n in range(1, 13)}
        codes = {n: {c.code for c in result.cautions} for n, result in tried.items()}
        first = next(n for n in tried if not codes[n] & {"thin", "thin_edge"})
        last = first
        while last < 4 and "thick" not in codes[last + 1] and tried[last + 1].rolls_count <= tried[first].rolls_count:
            last += 1
        self.r[name] = tried[last]

    def holds(self):
        """Of each side whether it gets screws: they keep their margins, and reach what is to hold them."""
        name, reach = ("screw", "embedded_mm") if self.way == 1 else ("through", "wood_length_mm")
        sides = [self.r[prefix + name] for prefix in (("", "other_") if self.two else ("",))] if self.driven else []
        return [side.margin_mm >= 0 and getattr(side, reach) > 0 for side in sides]

    def screws(self):
        """Those of a side that breaks a margin are not driven."""
        if not self.driven:
            return 0
        holds = self.holds()
        count = self.get("screw_count")
        if count is None or not self.two:
            return count if holds[0] else 0
        there = min(self.get("other_screw_count", count // 2), count)
        return holds[0] * (count - there) + holds[1] * there

    def load(self):
        upper = min(self.get("upper_layer_mm"), self.get("shoe_thickness_mm"))
        density = self.of("wood", "density_kg_m3")
        density = self.get("wood_density_g_ml", density / 1000 if density is not None else None)
        density = {} if density is None and not self.foam else {"wood_density_g_ml": density}
        m = self.measures
        self.step("mass", ground_area_mm2=m["ground_area_mm2"], perimeter_mm=m["perimeter_mm"],
                  upper_thickness_mm=upper, lower_thickness_mm=self.get("shoe_thickness_mm") - upper,
                  screw_count=self.screws(), **density,
                  tape_length_mm=self.r["tape"].tape_length_mm if self.get("cast_count") else 0,
                  adhesive_ml=self.r["glue"].net_ml, putty_ml=self.of("packing", "rear_ml") or 0,
                  cushion_ml=self.of("packing", "front_ml") or 0, removed_ml=self.r["bevel"].removed_ml)
        self.step("load")

    def loads(self):
        known, shear = self.of("load", "horizontal_known_count"), {}
        if known:
            shear["shear_n_per_kg"] = max(self.r["load"].braking_n_per_kg, self.r["load"].propulsive_n_per_kg)
        if "shear_n_per_kg" in self.sheet:
            shear["shear_n_per_kg"] = self.sheet["shear_n_per_kg"]
        leans = [90 - self.side_value(prefix, "dip_deg") if self.way == 2 else abs(self.side_value(prefix, "tilt_deg"))
                 for prefix in ("", "other_")]
        tilt = max([lean for lean, holds in zip(leans, self.holds()) if holds], default=leans[0])
        return dict(shoe_mass_g=self.get("shoe_mass_g", self.of("mass", "total_g")), screw_count=self.screws(),
                    axis_tilt_deg=tilt, **shear)

    def hold(self):
        none = dict(axial_design_n=0, lateral_design_n=0, bond_capacity_first_n=0, bond_capacity_mean_n=0)
        self.step("demand", **self.loads(), **none)
        demand = self.of("demand", "demand_n")
        if self.driven:
            name, length, wood = (("screw", "embedded_mm", None) if self.way == 1 else
                                  ("through", "grip_mm", "wood_length_mm"))
            hold = [self.r[prefix + name] for prefix in (("", "other_") if self.two else ("",))]
            hold = [screw for screw, holds in zip(hold, self.holds()) if holds]
            grip = dict(point_member_count=self.way, screw_diameter_mm=self.diameter(), **self.gravity(),
                        horn_length_mm=min((getattr(screw, length) for screw in hold), default=None),
                        wood_length_mm=min((getattr(screw, wood) for screw in hold), default=None) if wood else
                        self.get("shoe_thickness_mm") - self.get("head_recess_mm"),
                        **{field: self.gauged(field) for field in ("root_diameter_mm", "pitch_mm", "head_diameter_mm")})
            self.step("grip", **grip)
            wanted = self.of("demand", "needed_screw_n")
            least = {name: self.get(name, lower("screw_hold", name)) for name in ("horn_shear_mpa", "horn_bearing_mpa")}
            self.step("grip_need", **grip, **least, wanted_axial_n=wanted, wanted_lateral_n=wanted)
        bond = dict(bonded_area_mm2=self.measures["bonded_area_mm2"], horn_thickness_mm=self.thick, demand_n=demand,
                    lap_mm=min(self.get("high_toe_mm"), self.get("high_heel_mm")),
                    cover_thickness_mm=self.r["tape"].thickness_mm if self.get("cast_count") else self.get("film_mm"))
        self.step("bond", **bond)
        self.step("bond_need", **bond, shear_strength_mpa=self.get("shear_strength_mpa",
                                                                   lower("bond_hold", "shear_strength_mpa")))
        capacity = {f"bond_{name}": self.of("bond", name) for name in ("capacity_first_n", "capacity_mean_n")}
        loads = self.loads()
        each = {name: self.of("grip", name) if loads["screw_count"] else 0
                for name in ("axial_design_n", "lateral_design_n")}
        self.step("hold", **loads, **capacity, **each)
        self.step("bond_only", **{**loads, "screw_count": 0}, **capacity, axial_design_n=0, lateral_design_n=0)

    def weeks(self):
        self.step("lever")
        self.step("growth")
        self.step("recheck", days=self.get("recheck_days"))
        bevel = self.r["bevel"]
        flat = bevel.wedge_after_deg == 0
        self.step("wear", build_up_mm=0 if flat else bevel.inputs.build_up_mm,
                  base_length_mm=bevel.contact_length_mm if flat else 0)

    def day(self):
        air = self.get("ambient_c", self.get("temperature_c"))
        self.step("working", wanted_time_s=next(f["standard"] for f in CONTRACTS["working_time"]["inputs"]
                                                if f["name"] == "wanted_time_s"))
        mass = self.get("adhesive_density_g_ml") * min(self.get("pack_ml"), self.r["glue"].first_coat_ml)
        self.step("cup", mass_g=self.get("mass_g", mass), ambient_c=air, start_c=self.get("temperature_c"))
        room = self.get("room_c", air)
        if self.get("cast_count"):
            self.step("set", layers=self.r["tape"].layers, **({} if room is None else {"room_c": room}))
        tasks = [[self.get(f"{task}_{which}_s") for which in ("low", "likely", "high")] + [1]
                 for task in ("mix", "lay", "place", "drive", "wrap", "smooth")]
        if not self.driven or (self.r["demand"] and not self.screws()):
            tasks[3] = [0, 0, 0, 1]
        if not self.get("cast_count"):
            tasks[4] = [0, 0, 0, 1]
        times = [self.of("working", "safe_time_s"), self.of("cup", "gel_time_s")]
        lasts = min((time for time in times if time is not None), default=None)
        self.tasks = tasks
        self.step("timeline", steps=tasks, working_time_s=lasts, samples_count=self.get("samples_count", 0))
        self.step("cooler", wanted_time_s=self.of("timeline", "needed_working_time_s"))
