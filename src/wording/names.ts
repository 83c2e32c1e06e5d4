import type { Severity } from '../engine/checks'
import type { Part, Purpose } from '../engine/leader'
import type { CasterId, FlyStyle } from '../engine/tackle'

export const PART_NAMES: Readonly<Record<Part, string>> = {
  butt: 'Butt',
  'mid-section': 'Mid-section',
  sighter: 'Sighter',
  tippet: 'Tippet',
  shock: 'Shock',
  bite: 'Bite',
}

export const PURPOSE_NAMES: Readonly<Record<Purpose, string>> = {
  'general-dry': 'General dry fly',
  'slack-line-dry': 'Slack-line dry fly',
  nymph: 'Nymph',
  'tight-line-nymph': 'Tight-line nymph',
  streamer: 'Streamer',
  'still-water': 'Still water',
  'sinking-line': 'Sinking line',
  'salt-water': 'Salt water',
  'bite-tippet': 'Bite or shock tippet',
  teaching: 'Teaching',
}

export const FLY_NAMES: Readonly<Record<FlyStyle, string>> = {
  midge: 'Midge',
  parachute: 'Parachute dry',
  'collar-hackle': 'Collar-hackled dry',
  bushy: 'Hair-wing or bushy dry',
  'foam-terrestrial': 'Foam terrestrial',
  emerger: 'Emerger',
  'soft-hackle': 'Soft hackle',
  nymph: 'Nymph',
  'beaded-nymph': 'Beaded nymph',
  streamer: 'Streamer',
  'weighted-streamer': 'Weighted streamer',
  'deer-hair': 'Deer-hair head',
  popper: 'Popper',
  'yarn-tuft': 'Yarn tuft',
}

export const CASTER_NAMES: Readonly<Record<CasterId, string>> = {
  learner: 'Learner',
  ordinary: 'Ordinary caster',
  strong: 'Strong caster',
}

export const SEVERITY_NAMES: Readonly<Record<Severity, string>> = {
  note: 'Note',
  caution: 'Caution',
  fault: 'Fault',
}
