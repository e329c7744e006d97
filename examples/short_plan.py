"""The whole job in a few lines: a draft horse's front foot, an invented one."""
import ungula

plan = ungula.job_plan(
    # hoof and belt
    hoof_length_mm=175, hoof_width_mm=172, toe_angle_deg=51, quarter_angle_deg=74, heel_angle_deg=45,
    toe_hairline_mm=88, heel_hairline_mm=50, high_toe_mm=55, high_heel_mm=34,
    # shoe, and the wall on both sides
    shoe_thickness_mm=36, overhang_mm=8, species_count=4,
    border_width_mm=15, wall_angle_deg=74, sole_horn_mm=7, inset_mm=7.5, tilt_deg=14,
    other_border_width_mm=14, other_wall_angle_deg=77, other_tilt_deg=12,
    # screws of the box whose length the plan looks for, and tape whose passes it does
    gauge_count=8, screw_count=8, head_recess_mm=3, tilt_error_deg=3,
    tape_width_mm=101.6, stretch_fraction=0.15,
    # heel
    ground_length_mm=170, bevel_run_mm=18, bevel_angle_deg=24, width_start_mm=140, width_end_mm=124,
    # load; three strengths that nobody has published: measure your own
    body_mass_kg=850, gait_count=1, horn_shear_mpa=10, horn_bearing_mpa=25, shear_strength_mpa=2,
    adhesive_shear_modulus_mpa=300, cover_modulus_mpa=2500,
    # the adhesive's data sheet, and the day
    reference_time_s=480, reference_temperature_c=22, temperature_c=12, surface_cm2=400, water_c=20,
)  # fmt: skip

for title, items in ("Bring", plan.bring), ("Do", plan.todo), ("Later", plan.later):
    print(title, *("  " + item.text() for item in items), sep="\n")
for caution in plan.cautions:
    if caution.severity != "note":
        print(f"{caution.severity}: {caution.step}: {caution.text}")
print("not planned:", ", ".join(step.name for step in plan.steps if step.why))
