/**
 * What people of a language write over columns and into cells. Each text holds alternatives, parted by '|'; `slots`
 * and `meals` hold one word for each moment of the day, in its order.
 */
export interface LanguageWords {
  readonly date: string
  readonly time: string
  readonly hour: string
  readonly minute: string
  /** Date and clock in one. */
  readonly moment: string
  /** Names of the measured glucose, as a header or as a kind of entry. */
  readonly glucose: string
  /** 'Value', 'result': says glucose only where something else does. */
  readonly value: string
  readonly inUnit: string
  readonly unit: string
  readonly kind: string
  readonly note: string
  readonly meal: string
  readonly mood: string
  readonly weight: string
  readonly pulse: string
  readonly insulin: string
  readonly carbs: string
  readonly ketones: string
  readonly potassium: string
  readonly goal: string
  readonly number: string
  readonly serial: string
  readonly lot: string
  readonly birth: string
  readonly upload: string
  readonly systolic: string
  readonly diastolic: string
  readonly pressure: string
  readonly a1c: string
  readonly mean: string
  readonly total: string
  readonly dailyMean: string
  readonly weekday: string
  /** Fasting, before and after breakfast, lunch and dinner, at bedtime, at night. */
  readonly slots: string
  /** Breakfast, lunch, dinner, bedtime. */
  readonly meals: string
  /** Before a meal, after a meal. */
  readonly beforeAfter: string
  /** Morning, midday, evening, night. */
  readonly timesOfDay: string
  readonly title: string
  readonly patient: string
  readonly printed: string
  readonly count: string
  readonly notes: string
}
