/** The formulas of the page for instructors, each with its source. */
export const FORMULAS: readonly {
  readonly what: string
  readonly formula: string
  readonly source: string
}[] = [
  {
    what: 'Bending stiffness of a strand',
    formula: 'E π d⁴ / 64',
    source: 'Machinery’s Handbook, 31st ed., 2020',
  },
  {
    what: 'Moment at a joint of the chain',
    formula: 'M = K (Δθ − θ₀ + τ dΔθ/dt), 1/K = l₁/(2 E I₁) + l₂/(2 E I₂)',
    source: 'derived: half links in series',
  },
  {
    what: 'Drag across a link',
    formula:
      '½ ρ Cd(Re) d l |u| u; Cd = 11 Re^−0.75 + 0.9 (1 − e^(−1000/Re)) + 1.2 (1 − e^(−(Re/4500)^0.7))',
    source: 'Cheng, J. Hydraul. Eng. 139(6), 2013',
  },
  {
    what: 'Friction along a link',
    formula: '½ ρ Cf π d l |u| u; Cf = 0.37 Re^−0.61',
    source: 'Matsui, Trans. Soc. Rheol. 20:465, 1976 (from memory)',
  },
  {
    what: 'Drag of the fly',
    formula: '½ ρ CdA |u| u',
    source: 'area by style and hook: estimate, within a factor of two',
  },
  { what: 'Air', formula: '1.225 kg/m³, 1.789·10⁻⁵ Pa s', source: 'ISO 2533:1975, 15 °C' },
  {
    what: 'Leg speed, energy model: where a search of speeds begins',
    formula: 'v = v₀ √(M₀/M) e^(−Λ/2), Λ = ∫ 4K/M ds',
    source: 'derived from the momentum and energy of the two legs',
  },
  {
    what: 'Wave that a step sends back',
    formula: '((d₁ − d₂)/(d₁ + d₂))²',
    source: 'derived: small waves on a string',
  },
  {
    what: 'Lay',
    formula: '(x of the fly − x of the butt) / length of the leader, as the fly touches the water',
    source: 'definition',
  },
  {
    what: 'How a cast misses',
    formula: 'v = v₀ e^(σᵥ z₁), aim = α₀ + σₐ z₂, z normal and evenly spread',
    source:
      'Halton, Numer. Math. 2, 1960; Box and Muller, Ann. Math. Stat. 29, 1958; σ by caster: estimate',
  },
  {
    what: 'Speed a fly falls at',
    formula: 'm g = ρ/2 CdA v²',
    source: 'balance of weight and drag',
  },
  {
    what: 'Drag area of hackle, hair and yarn',
    formula: 'CdA = CdA₆ (v / 6 m/s)^−p, p = 0.35',
    source: 'barbs as cylinders: Cheng, 2013; p from 0.2 to 0.5, estimate',
  },
]
