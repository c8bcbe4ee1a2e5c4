"""The plan and the stiffness of a plate.

Everything is placed in *plate coordinates* ``(along, across)``: ``(x, y)`` on a rectangle,
``(angle, radius)`` on a sector. A sector lies symmetrically about the y axis of the plan,
``x = r sin(angle)``, ``y = r cos(angle)``, so that at its middle *along* is x and *across*
is y, as on the rectangle that it becomes when the radius grows. The stiffer material
direction (grain) is the x axis of the plan everywhere and does not follow the curve.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateGeometry:
    """The plan of a plate; made by :func:`rectangle` or :func:`sector`.

    Parameters
    ----------
    along : tuple of float
        First and last along coordinate: x of a rectangle, angle of a sector [mm, rad]
    across : tuple of float
        First and last across coordinate: y of a rectangle, radius of a sector [mm]
    curved : bool
        True for a sector [-]
    """

    along: Range
    across: Range
    curved: bool

    @property
    def size(self) -> Range:
        """Length at mid depth and depth [mm]."""
        depth = self.across[1] - self.across[0]
        middle = (self.across[0] + self.across[1]) / 2.0 if self.curved else 1.0
        return (self.along[1] - self.along[0]) * middle, depth


def rectangle(length: float, depth: float) -> PlateGeometry:
    """Rectangle 0 <= x <= length, 0 <= y <= depth.

    Parameters
    ----------
    length : float
        Length along x [mm]
    depth : float
        Depth along y [mm]

    Returns
    -------
    PlateGeometry
        Edges: left x = 0, right x = length, near y = 0, far y = depth [mm]

    Raises
    ------
    ValueError
        If a length is not positive and finite.

    Notes
    -----
    Source: definition.
    """
    require_positive(length=length, depth=depth)
    return PlateGeometry(along=(0.0, length), across=(0.0, depth), curved=False)


def sector(inner_radius: float, outer_radius: float, angle: float) -> PlateGeometry:
    """Annular sector, symmetrical about the y axis of the plan.

    Parameters
    ----------
    inner_radius : float
        Radius of the near edge [mm]
    outer_radius : float
        Radius of the far edge [mm]
    angle : float
        Angle between the two radial edges, less than a full turn [rad]

    Returns
    -------
    PlateGeometry
        Edges: left and right radial, at angle -+ angle / 2; near inner, far outer [mm, rad]

    Raises
    ------
    ValueError
        If a radius is not positive, the outer one not larger, or the angle out of range.

    Notes
    -----
    Source: definition.
    """
    require_positive(inner_radius=inner_radius, outer_radius=outer_radius, angle=angle)
    if outer_radius <= inner_radius:
        raise ValueError(f"outer_radius {outer_radius} must exceed inner_radius {inner_radius}")
    if angle >= 2.0 * math.pi:
        raise ValueError(f"angle {angle} rad: a sector is less than a full turn")
    return PlateGeometry(
        along=(-angle / 2.0, angle / 2.0), across=(inner_radius, outer_radius), curved=True
    )


@dataclass(frozen=True, slots=True)
class Stiffness:
    """Bending and shear stiffness per length of an orthotropic plate, axes x (grain) and y.

    ``M_x = D11 k_x + D12 k_y``, ``M_y = D12 k_x + D22 k_y``, ``M_xy = D66 (2 k_xy)``,
    ``Q_x = S1 g_x``, ``Q_y = S2 g_y``. For doubled or layered panels give the sums.

    Parameters
    ----------
    D11, D22, D12, D66 : float
        Bending stiffness along x, along y, coupling, twisting [N mm]
    S1, S2 : float
        Transverse shear stiffness x-z and y-z, shear factor included [N/mm]
    """

    D11: float
    D22: float
    D12: float
    D66: float
    S1: float
    S2: float

    def __post_init__(self) -> None:
        require_positive(D11=self.D11, D22=self.D22, D66=self.D66, S1=self.S1, S2=self.S2)
        if not self.D12**2 < self.D11 * self.D22:
            raise ValueError(f"D12 = {self.D12} must be smaller than the root of D11 D22")


def stiffness_of(
    E_x: float,
    E_y: float,
    nu_xy: float,
    G_xy: float,
    G_xz: float,
    G_yz: float,
    thickness: float,
    shear_factor: float = 5.0 / 6.0,
) -> Stiffness:
    """Stiffness of a plate of one material.

    Parameters
    ----------
    E_x, E_y : float
        Modulus of elasticity along and across the grain; the true one, without shear [MPa]
    nu_xy : float
        Strain across over strain along under stress along x [-]
    G_xy : float
        In-plane (twisting) shear modulus [MPa]
    G_xz, G_yz : float
        Transverse shear moduli; rolling shear counts here [MPa]
    thickness : float
        Thickness [mm]
    shear_factor : float
        Shear factor, 5/6 for a homogeneous section [-]

    Returns
    -------
    Stiffness
        D [N mm], S [N/mm]

    Raises
    ------
    ValueError
        If a modulus or the thickness is not positive, or nu_xy is not admissible.

    Notes
    -----
    Source: S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., art. 85
    (orthotropic D); shear factor 5/6 by E. Reissner, J. Appl. Mech. 12 (1945).
    Valid for: nu_xy**2 < E_x / E_y.
    """
    require_positive(
        E_x=E_x, E_y=E_y, G_xy=G_xy, G_xz=G_xz, G_yz=G_yz,
        thickness=thickness, shear_factor=shear_factor,
    )  # fmt: skip
    nu_yx = nu_xy * E_y / E_x
    if not nu_xy * nu_yx < 1.0:
        raise ValueError(f"nu_xy = {nu_xy} is not admissible with E_x / E_y = {E_x / E_y:.3g}")
    per_modulus = thickness**3 / 12.0
    D11 = E_x * per_modulus / (1.0 - nu_xy * nu_yx)
    D22 = E_y * per_modulus / (1.0 - nu_xy * nu_yx)
    return Stiffness(
        D11=D11,
        D22=D22,
        D12=nu_xy * D22,
        D66=G_xy * per_modulus,
        S1=shear_factor * G_xz * thickness,
        S2=shear_factor * G_yz * thickness,
    )


def require_positive(**values: float) -> None:
    """Raise unless every value is positive and finite.

    Parameters
    ----------
    **values : float
        Values by the name to call them in the error [-]

    Raises
    ------
    ValueError
        With the name and value of the first that is not.

    Notes
    -----
    Source: definition.
    """
    for name, value in values.items():
        if not (value > 0.0 and math.isfinite(value)):
            raise ValueError(f"{name} = {value} must be positive and finite")
