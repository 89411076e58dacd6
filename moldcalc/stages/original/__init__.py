"""How big the original is: solids, tape, foil; and how a coat on it grows."""

from moldcalc.stages.original.body import (
    body_surface_boyd,
    body_surface_du_bois,
    body_surface_gehan_george,
    body_surface_haycock,
    body_surface_mosteller,
)
from moldcalc.stages.original.caps import cap_area, cap_volume
from moldcalc.stages.original.curvature import (
    mean_curvature_box,
    mean_curvature_edges,
    mean_curvature_ellipsoid,
    mean_curvature_sphere,
    mean_curvature_torus,
)
from moldcalc.stages.original.foil import foil_area, foil_area_uncertainty
from moldcalc.stages.original.growth import coat_volume, grown_area, grown_volume
from moldcalc.stages.original.integrals import elliprg, gauss_legendre
from moldcalc.stages.original.sections import Stadium, prismatoid_volume, stadium_section, stadium_volume
from moldcalc.stages.original.size import SizeBand, area_to_coat, flange_area, size_band, with_detail
from moldcalc.stages.original.solids import (
    box_area,
    box_five_faces_area,
    box_volume,
    ellipsoid_area,
    ellipsoid_volume,
    torus_area,
    torus_volume,
)
from moldcalc.stages.original.superellipsoid import mean_curvature_superellipsoid, superellipsoid_area, superellipsoid_volume
from moldcalc.stages.original.tape import Band, ellipse_perimeter, end_disc_area, girth_area, girth_volume, ring_area, tape_band
from moldcalc.stages.original.turned import (
    capsule_area,
    capsule_volume,
    cylinder_area,
    cylinder_lateral_area,
    cylinder_volume,
    frustum_lateral_area,
    frustum_volume,
)
from moldcalc.stages.original.turned_curvature import (
    mean_curvature_cap,
    mean_curvature_capsule,
    mean_curvature_cone,
    mean_curvature_cylinder,
    mean_curvature_frustum,
)

__all__ = [
    "Band", "SizeBand", "Stadium", "area_to_coat", "body_surface_boyd", "body_surface_du_bois", "body_surface_gehan_george",
    "body_surface_haycock", "body_surface_mosteller", "box_area", "box_five_faces_area", "box_volume", "cap_area", "cap_volume",
    "capsule_area", "capsule_volume", "coat_volume", "cylinder_area", "cylinder_lateral_area", "cylinder_volume", "elliprg",
    "ellipse_perimeter", "ellipsoid_area", "ellipsoid_volume", "end_disc_area", "flange_area", "foil_area", "foil_area_uncertainty",
    "frustum_lateral_area", "frustum_volume", "gauss_legendre", "girth_area", "girth_volume", "grown_area", "grown_volume",
    "mean_curvature_box", "mean_curvature_cap", "mean_curvature_capsule", "mean_curvature_cone", "mean_curvature_cylinder",
    "mean_curvature_edges", "mean_curvature_ellipsoid", "mean_curvature_frustum", "mean_curvature_sphere",
    "mean_curvature_superellipsoid", "mean_curvature_torus", "prismatoid_volume", "ring_area", "size_band", "stadium_section",
    "stadium_volume", "superellipsoid_area", "superellipsoid_volume", "tape_band", "torus_area", "torus_volume", "with_detail",
]
