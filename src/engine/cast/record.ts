/**
 * What a step knows of each node lies in one record of one array, constants beside what changes: the loops
 * then check one array's bounds and keep one base address, which makes them a third faster than an array a
 * quantity. Record k holds node k and the link that ends there. SI.
 */
export const X = 0
export const Y = 1
/** Velocities stand half a step behind positions (leapfrog). */
export const VX = 2
export const VY = 3
/** Accelerations of the last step, for bringing velocities up to the time of the positions. */
export const AX = 4
export const AY = 5
/** The same extrapolated one step on: twice the last less the one before. */
export const NEXT_AX = 6
export const NEXT_AY = 7
export const FX = 8
export const FY = 9
/** Direction cosines of the link. */
export const COS = 10
export const SIN = 11
/** Tension of the link, N, and what a step tries in its place. */
export const TENSION = 12
export const TRIAL = 13
/** Rows of the tridiagonal solve, eliminated. */
export const UPPER = 14
export const RIGHT = 15
/** 1 in the air, towards 0 where the water holds the node. */
export const FREE = 16
/** Power (W) that the air takes from the link, across it and along it, and damping at the node. */
export const CROSS_POWER = 17
export const AXIAL_POWER = 18
export const BENDING_POWER = 19
// Constants of the chain from here on.
export const LENGTH = 20
export const INVERSE_LENGTH = 21
export const WAVE_FACTOR = 22
export const INVERSE_MASS = 23
/** Weight of the node, N. */
export const WEIGHT = 24
export const LINK_INERTIA = 25
export const HINGE = 26
export const NATURAL_ANGLE = 27
/** Reynolds number per speed, s/m, and force per (table value x speed), N s/m, for half of the link. */
export const REYNOLDS = 28
export const DRAG_FACTOR = 29

export const STRIDE = 30

/** Two records of nothing lead, since the loop of forces writes two behind, and one follows the fly. */
export const FIRST = 2 * STRIDE
export const recordCount = (links: number): number => links + 4

/** Where the record of a node begins. */
export const recordOf = (node: number): number => FIRST + node * STRIDE
