/** What in the blood makes some meters and strips read wrong. */
export interface Interference {
  readonly kind: 'reads-dangerously-high' | 'reads-high' | 'reads-off'
  /** The substance as printed. */
  readonly substance: string
  /** Words by which it is known, without accents, in lower case. */
  readonly names: RegExp
  /** Disturbs only above this much a day, mg; null at any amount. */
  readonly aboveMilligramsADay: number | null
  readonly source: string
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
    source: 'FDA public health notification, 13 August 2009',
  },
  {
    kind: 'reads-dangerously-high',
    substance: 'maltose, galactose or xylose',
    names: /maltos|galactos|galaktos|galattos|xylos|xilos/,
    aboveMilligramsADay: null,
    source: 'FDA public health notification, 13 August 2009',
  },
  {
    kind: 'reads-high',
    substance: 'vitamin C',
    names: /vitamine? ?c\b|vitamina ?c\b|c-?vitamin|ascorb/,
    aboveMilligramsADay: 500,
    source: 'Tang et al., Am J Clin Pathol 2000;113:75',
  },
  {
    kind: 'reads-off',
    substance: 'paracetamol (acetaminophen)',
    names: /paracetamol|paracetamolo|acetaminoph/,
    aboveMilligramsADay: null,
    source: 'Tang et al., Am J Clin Pathol 2000;113:75',
  },
  {
    kind: 'reads-off',
    substance: 'dopamine',
    names: /dopamin/,
    aboveMilligramsADay: null,
    source: 'Tang et al., Am J Clin Pathol 2000;113:75',
  },
  {
    kind: 'reads-off',
    substance: 'mannitol',
    names: /mannit/,
    aboveMilligramsADay: null,
    source: 'Tang et al., Am J Clin Pathol 2000;113:75',
  },
]
