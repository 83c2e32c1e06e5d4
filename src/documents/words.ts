/**
 * Words that links write in one byte. The order is part of the format, version 1: words are never taken out or
 * moved, only added at the end, and a link of an older app stays readable.
 */
export const WORDS: readonly string[] = [
  // keys
  ...['format', 'version', 'name', 'purpose', 'notes', 'statedTotal', 'outfit', 'materials'],
  ...['segments', 'tip', 'part', 'material', 'diameter', 'measured', 'label', 'strength'],
  ...['pullTest', 'length', 'colour', 'note', 'joint', 'attachments', 'knot', 'turns', 'takeUp'],
  ...['fly', 'style', 'hook', 'bead', 'mass', 'dragArea_mm2', 'metal', 'kind', 'from', 'rod'],
  ...['line', 'lineTip', 'fish', 'caster', 'wet', 'text', 'unit', 'estimatedFrom', 'id', 'family'],
  ...['density_kg_m3', 'modulus_Pa', 'wetModulusFactor', 'tensileStrength_Pa'],
  ...['wetStrengthFactor', 'refractiveIndex', 'source', 'formulas', '$schema'],
  // values
  ...['taperwright-leader', 'taperwright-set', '../public/leader.schema.json'],
  ...['butt', 'mid-section', 'sighter', 'tippet', 'shock', 'bite'],
  ...['general-dry', 'slack-line-dry', 'nymph', 'tight-line-nymph', 'streamer', 'still-water'],
  ...['sinking-line', 'salt-water', 'bite-tippet', 'teaching'],
  ...['nylon-stiff', 'nylon-supple', 'copolymer', 'fluorocarbon'],
  ...['blood', 'surgeons-double', 'surgeons-triple', 'uni-to-uni', 'albright', 'loop-to-loop'],
  ...['ring', 'nail', 'needle', 'improved-clinch', 'uni', 'loop-knot'],
  ...['midge', 'parachute', 'collar-hackle', 'bushy', 'foam-terrestrial', 'emerger'],
  ...['soft-hackle', 'beaded-nymph', 'weighted-streamer', 'deer-hair', 'popper', 'yarn-tuft'],
  ...['dropper', 'indicator', 'weight', 'learner', 'ordinary', 'strong', 'tungsten', 'brass'],
  ...['nylon', 'polyester', 'braid', 'wire'],
  ...['in', 'ft', 'ft-in', 'mm', 'cm', 'm', 'X', 'thou', 'lb', 'kg', 'g', 'mg'],
  ...['WF3F', 'WF4F', 'WF5F', 'WF6F', 'WF7F', 'WF8F', 'DT4F', 'DT5F'],
]

/** Endings of figures that are written in one byte; what stands before them is digits and little else. */
export const ENDINGS: readonly string[] = [
  ...['', ' in', '"', ' ft', "'", 'X', 'x', ' thou', ' mm', ' cm', ' m', ' lb', ' kg', ' g', ' mg'],
  ...['in', 'ft', 'mm', 'cm', 'm', 'lb', ' N', ' oz', ' gr', ' µm', ' um'],
]
