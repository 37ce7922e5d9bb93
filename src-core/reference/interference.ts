/** A substance by its code; the catalogue has its name. */
export type Substance = 'icodextrin' | 'other-sugars' | 'vitamin-c' | 'paracetamol' | 'dopamine' | 'mannitol'

/**
 * Where the disturbance is published: FDA public health notification, 13 August 2009; Tang et al., Am J Clin Pathol
 * 2000;113:75.
 */
export type InterferenceSource = 'fda-2009' | 'tang-2000'

/** What in the blood makes some meters and strips read wrong. */
export interface Interference {
  readonly kind: 'reads-dangerously-high' | 'reads-high' | 'reads-off'
  readonly substance: Substance
  /** Words by which it is known, without accents, in lower case. */
  readonly names: RegExp
  /** Disturbs only above this much a day, mg; null at any amount. */
  readonly aboveMilligramsADay: number | null
  readonly source: InterferenceSource
}

/**
 * Substances with published disturbance. Names of the substances in the languages of the logs are from memory; the
 * threshold for vitamin C is common practice without a source at hand.
 */
export const INTERFERENCES: readonly Interference[] = [
  {
    kind: 'reads-dangerously-high',
    substance: 'icodextrin',
    names: /icodext|icodestrin|ikodekst/,
    aboveMilligramsADay: null,
    source: 'fda-2009',
  },
  {
    kind: 'reads-dangerously-high',
    substance: 'other-sugars',
    names: /maltos|galactos|galaktos|galattos|xylos|xilos/,
    aboveMilligramsADay: null,
    source: 'fda-2009',
  },
  {
    kind: 'reads-high',
    substance: 'vitamin-c',
    names: /vitamine? ?c\b|vitamina ?c\b|c-?vitamin|ascorb/,
    aboveMilligramsADay: 500,
    source: 'tang-2000',
  },
  {
    kind: 'reads-off',
    substance: 'paracetamol',
    names: /paracetamol|paracetamolo|acetaminoph/,
    aboveMilligramsADay: null,
    source: 'tang-2000',
  },
  {
    kind: 'reads-off',
    substance: 'dopamine',
    names: /dopamin/,
    aboveMilligramsADay: null,
    source: 'tang-2000',
  },
  {
    kind: 'reads-off',
    substance: 'mannitol',
    names: /mannit/,
    aboveMilligramsADay: null,
    source: 'tang-2000',
  },
]
