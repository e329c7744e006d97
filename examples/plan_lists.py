"""What the calculations with lists are given: the trace, its outline, the stations of the wall, places for screws."""
import ungula

OUTLINE_POINTS = 2000  # outline_band is within 1e-5 of the smooth outline with as many
PLACE_STEP = 5  # mm; choice: finer than screws are set by hand
PLACES = ungula.describe("screw_layout").lists[0]


class Lists:
    """outline: points; stations: rows of wall_profile, each with its row of the sheet; places: of each side."""
    def __init__(self, plan, sheet, trace):
        self.plan, self.sheet, self.trace = plan, sheet, trace
        self.stations, self.station_rows, self.places = [], [], {}

    def arguments(self, step):
        """What a step is called with beside its inputs; None where an earlier step failed."""
        if step == "outline_fit":
            return {"trace": self.trace.points, "outline_count": OUTLINE_POINTS}
        if step not in ("outline_band", "wall_profile", "left", "right"):
            return {}
        if "outline_fit" not in self.plan.result:
            return None
        outline = self.plan.result["outline_fit"].outline
        self.outline = list(zip(outline.x_mm, outline.y_mm))
        if step == "outline_band":
            return {"outline": self.outline}
        if step == "wall_profile":
            self.gather_stations()
            return {"stations": self.stations, "profile_count": 1}
        if "wall_profile" not in self.plan.result:
            return None
        self.gather_places(step)
        return {"stations": self.places[step],
                "screws_count": int(self.sheet.find("screw_layout", "screws_count").value)}

    def at(self, side, share):
        return ungula.outline_at(outline=self.outline, left_side_count=side == "left", side_fraction=share,
                                 toe_direction_deg=self.plan.inputs["outline_fit"]["toe_direction_deg"])

    def gather_stations(self):
        """Stations of the sheet in the order of the profile; each is there with both its fields."""
        rows = [row for row in self.sheet.rows if row.side]
        found = []
        for row in rows:
            if row.name == "wall_thickness_mm":
                angle = next(n.value for n in rows if n.place == row.place and n.name == "wall_angle_deg"
                             and (n.side == row.side or row.place in (0, 1)))
                found.append((self.at(row.side, row.place).around_fraction, row.value, angle, row))
        found.sort(key=lambda station: station[0])
        self.stations, self.station_rows = [f[:3] for f in found], [f[3] for f in found]

    def gather_places(self, side):
        """Every few millimeters between the first and the last station, since there the wall was measured."""
        measured = [row.place for row in self.sheet.rows if row.side == side or (row.side and row.place in (0, 1))]
        length = self.at(side, 0).side_length_mm
        sole = self.sheet.find("screw_layout", "sole_horn_mm").value
        self.places[side] = []
        from_toe = 0.0
        while from_toe <= length and len(self.places[side]) < PLACES.most:
            share = from_toe / length
            if min(measured) <= share <= max(measured):
                around = self.at(side, share).around_fraction
                wall = ungula.wall_profile(start_fraction=around, stations=self.stations, profile_count=1).profile
                self.places[side].append((share, from_toe, wall.wall_thickness_mm[0], wall.wall_angle_deg[0], sole))
            from_toe += PLACE_STEP
