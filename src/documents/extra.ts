import type { Extra } from '../engine/leader'
import type { Material } from '../engine/materials'
import type { Bead } from '../engine/tackle'

/**
 * The engine knows nothing of fields it does not read. A material and a bead carry theirs along all the
 * same, beside what the engine sees of them.
 */
export type OwnMaterial = Material & { readonly extra?: Extra }
export type OwnBead = Bead & { readonly extra?: Extra }
