"""Takes: arrays of numbers and plain frozen records of them; knows nothing of furniture.
Gives: strains, curvatures, stresses, moisture through the year, bands, bond shear, sag, wood movement.
May import: numpy and scipy only.
Start reading at: response.py (curvature through time), then laminate.py; bond, wood, sag by module.

For one build-up (`Stack`: layers bottom to top) and the air on both faces (`Climate`, or None if sealed):

    year  = settled_year(stack, climate_top, climate_bottom, humidity_at_bonding)   → Warp, one year
    first = first_years(stack, climate_top, climate_bottom, initial_humidities, glue_water)  → Warp, by day
    band  = sample_band(stack, climate_top, climate_bottom, humidity_at_bonding, varied)     → Band
    band  = sample_first_years(stack, climate_top, climate_bottom, initial_humidities, glue_water, varied)
    twist = sample_twist(plies, free_strain, angle_deviation_deg)                   → κxy of each draw

All of these but the last take `held`, `soft_glue` with `size_mm`, and `relaxation`. The nonlinear reference
is `march.march` with `marched.marched_years`. κ > 0 domes the show face; `bow_mm` and `fourth_corner_mm` turn
curvature into millimetres; `holding_moments` says what presses a panel flat.
"""

from evenface.mechanics.harmonics import days_from_monthly_means
from evenface.mechanics.laminate import (
    FREE,
    HELD_ACROSS,
    HELD_ALONG,
    HELD_FLAT,
    Deformation,
    Laminate,
    Plies,
    deform,
    even_strain,
    free_bending_stiffness,
    free_resultants,
    holding_moments,
    isotropic,
    laminate,
    sloping_strain,
    stress_at,
    strip,
)
from evenface.mechanics.response import Warp, first_years, layer_stresses, settled_year
from evenface.mechanics.rise import arc_rise_mm, bow_mm, fourth_corner_mm
from evenface.mechanics.sampling import (
    Band,
    Varied,
    sample_band,
    sample_first_years,
)
from evenface.mechanics.stack import Climate, GlueWater, Isotherm, Relaxation, SoftGlue, Stack
from evenface.mechanics.twist import sample_twist, twist_band_mm
from evenface.mechanics.vapour import saturation_pressure_pa
from evenface.mechanics.weights import curvature_weights, glue_line_share

__all__ = [
    "FREE",
    "HELD_ACROSS",
    "HELD_ALONG",
    "HELD_FLAT",
    "Band",
    "Climate",
    "Deformation",
    "GlueWater",
    "Isotherm",
    "Laminate",
    "Plies",
    "Relaxation",
    "SoftGlue",
    "Stack",
    "Varied",
    "Warp",
    "arc_rise_mm",
    "bow_mm",
    "curvature_weights",
    "days_from_monthly_means",
    "deform",
    "even_strain",
    "first_years",
    "fourth_corner_mm",
    "free_bending_stiffness",
    "free_resultants",
    "glue_line_share",
    "holding_moments",
    "isotropic",
    "laminate",
    "layer_stresses",
    "sample_band",
    "sample_first_years",
    "sample_twist",
    "saturation_pressure_pa",
    "settled_year",
    "sloping_strain",
    "stress_at",
    "strip",
    "twist_band_mm",
]
