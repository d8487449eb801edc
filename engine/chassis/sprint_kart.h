// sprint_kart.h - what the physics has to know of a kart: masses, places and stiffnesses. No
// suspension; a frame that twists in two sections in series, and a locked rear axle.
//
// SI. Axes are those of ISO 8855: x forward, y left, z up.

#pragma once

namespace kartwright {

/// The parameters of one kart. They come from the kart file, else from the pack's dimensions.
struct SprintKart {
  double mass = 0;  ///< with the driver aboard
  double wheelbase = 0;
  double front_share = 0;                  ///< of the weight, as a fraction
  double mass_height = 0;                  ///< of the centre of mass, above the ground
  double mass_left = 0;                    ///< of the centre of mass, left of the centre line
  double front_track = 0, rear_track = 0;  ///< between the middles of the tyres

  double front_mass_share = 0;   ///< of the mass that rolls with the front half of the frame
  double front_mass_height = 0;  ///< of that half's centre of mass
  double twist_axis_height = 0;  ///< of the axis that the halves twist about

  double front_frame = 0, rear_frame = 0;  ///< N m per radian of twist, in series
  double twist = 0;      ///< radians that the frame is twisted when no wheel is loaded
  double front_bar = 0;  ///< N m per radian, beside the front section; 0 where it is out
  double front_tyre = 0, rear_tyre = 0;  ///< vertical stiffness, N/m
  double spindle = 0, carrier = 0;       ///< at the front wheel, at the rear bearing, N/m

  double axle_diameter = 0, axle_wall = 0;
  double axle_modulus = 0;           ///< of elasticity, Pa
  double bearing_half_distance = 0;  ///< from the centre line to the outer bearing
  double hub_length = 0,
         hub_outboard = 0;     ///< of a rear hub, and how much of it is outside the tyre's middle
  bool middle_bearing = true;  ///< three bearings, else two

  double caster = 0, kingpin_inclination = 0;  ///< radians
  double kingpin_width = 0;  ///< between the kingpins, at the height of the spindles
  double ackermann = 0;      ///< 1: the wheels' axes meet on the rear axle's
  double toe_out = 0;        ///< of one front wheel, radians
  double front_tyre_radius = 0, rear_tyre_radius = 0;
};

/// The mass and the place of the driver in the seat: what a move of the seat moves.
struct Seated {
  double mass = 0;  ///< of driver and seat
};

}  // namespace kartwright
