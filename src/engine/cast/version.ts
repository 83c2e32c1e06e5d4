/**
 * Which engine a result was computed by. Raise it with every change after which the same case may give
 * other figures: of a force, an integrator, a mesh, a search or a sampled spread.
 */
export const ENGINE_VERSION = 3
