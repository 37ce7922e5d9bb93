/**
 * The doubt model's constants. All are design choices: round figures in keeping with the published sizes named
 * beside them, held against simulated logs of several kinds and fitted to none.
 */
export const MODEL = {
  /** A reading is off where its true value lies beyond a factor of 1.3 either way. */
  offFactor: 1.3,

  /** Coefficient of variation of a sound reading from 100 mg/dL on; below, the same in mg/dL. Repeatability
   *  found in tests of meters is 2.4 to 3.9 % (ISO 15197:2013 evaluations); strips and fingers add to it. */
  meterCv: 0.055,
  /** Chance of a gross error upwards, and what it does: from a fifth to three times too high. Sugar from fruit
   *  on the finger: Hirose et al., Diabetes Care 2011;34:596-597. */
  up: 0.017,
  upwards: { least: 1.2, most: 3 },
  /** The same downwards: dilution and under-filling, from a tenth to two fifths too low. */
  down: 0.014,
  downwards: { least: 0.6, most: 0.9 },
  /** Chance of an error of no known kind and any size. */
  other: 0.0005,
  /** Chance that the test after a low is contaminated: sugar was just in hand. */
  upAfterLow: 0.12,
  /** Minutes after a low in which that holds, and in which glucose may rise with sugar taken. */
  afterLowMinutes: 30,
  /** Chance that sugar on the finger is still there for the repeat, and what is then left of the excess. */
  sugarStays: 0.35,
  sugarLeft: { mean: 0.7, sd: 0.2 },

  /** Chance that a reading is repeated because it surprises: from none at an error of `from` to the whole at
   *  `to` (natural logarithm). */
  repeatSurprise: { chance: 0.6, from: 0.1, to: 0.35 },
  /** Chance that a very low or very high value is repeated for itself. */
  repeatLow: 0.3,
  repeatHigh: { chance: 0.15, fromZ: 1.3, toZ: 2.5 },
  /** Chance of any other repeat: what a person does is counted, on top of these pretended readings. */
  repeatAnyway: { readings: 100, repeats: 2 },

  /** Memory of glucose, minutes, and the exponent of its decay. */
  memoryMinutes: 75,
  memoryPower: 1.7,
  /** Share of quick stretches, and how much shorter their memory is. */
  quickShare: 0.15,
  quickFactor: 0.35,
  /** Honest rise after a low, mg/dL per minute, in so many cases, up to so much: sugar was taken. */
  riseShare: 0.5,
  riseRate: 5,
  riseMost: 80,

  /** A person's range before any reading: centre and spread of the natural logarithm of mg/dL. */
  priorCentre: Math.log(140),
  priorSpread: 0.4,
  priorReadings: 5,
  leastSpread: 0.1,
  /** Share of the heavy-tailed law in a person's range, and how much wider it is. */
  broadShare: 0.06,
  broadFactor: 1.3,
  /** A log whose readings fit the laws above badly is judged by these; each is taken where the readings are likelier by it,
   *  `evidence` being the natural logarithm of how much, and where so many occasions or pairs can tell.
   *  Wider tails: Student's t with so many degrees of freedom, `tTenth` its ninetieth percentile. */
  wide: { df: 5, tTenth: 1.475884, evidence: 0, fewest: 60 },
  /** A shorter memory, by pairs of tests up to so many minutes apart; of more pairs than these some are left out. */
  quick: { factor: 0.5, evidence: 3, furthestMinutes: 110, fewest: 10, mostPairs: 1000 },
  /** Share of true lows that anybody is allowed, mg/dL: a real low must never look impossible. */
  lowShare: 0.02,
  lows: { from: 35, to: 70 },
} as const
