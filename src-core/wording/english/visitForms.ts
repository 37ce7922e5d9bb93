import { thousandsText } from './counts'

// The forms of the visit in the window: what they are called, their fields, and what is said of what is written there.

export const PARTS = 'Parts of the visit'
export const FILE = 'File'
export const EDITED = 'edited'

// Beside fields of which something is wrong.
export const NOT_TAKEN_IN = 'Not accepted: the visit keeps what was there before.'
export const BACK_TO_WHAT_HOLDS = 'Back to what the visit has'
export const DAYS_BACKWARDS = 'The first day comes after the last. Swap them.'
export const NO_DAY = 'Write a date that exists, such as 2026-03-02.'
export const tooLong = (length: number, most: number) =>
  `Too long: ${thousandsText(length)} of ${thousandsText(most)} characters. Shorten it.`
export const ENTRY_MOVED = 'The list has changed in the meantime. Look at it and try again.'
/** Something written into a field stands in the way; `field`: its name. */
export const notTakenInText = (field: string) =>
  `Not accepted yet: ‘${field}’. Correct it, or clear the field.`
/** Beside an entry that was begun; `action`: what stands on its button. */
export const notYetText = (action: string) => `Not in the visit until you press ${action}.`

export const ADD = 'Add'
export const CHANGE = 'Change'
export const DONE = 'Done'
export const REMOVE = 'Remove'
export const CHANGED = 'Changed.'
export const removedText = (entry: string) => `Removed: ${entry}.`
export const UNKNOWN_METER = 'No log has a meter of this name: choose one with Change.'

export const ABOUT = {
  title: 'Label, targets, unit',
  label: 'At the head of each page',
  labelHint: 'Can be left empty: the pages then have a line for name and date of birth.',
  targets: 'Targets and unit',
  targetsLead: 'Agreed with the care team. Lows are counted below the same limits, whatever the target.',
  targetsChanged: 'Targets and unit changed.',
  treatment: 'Treatment',
  told: 'Noted.',
} as const

/** Printed on the first page; what stays empty is a line for the pen there. */
export const TREATMENT = {
  causes: {
    field: { label: 'Insulin or tablets that can cause lows', hint: 'Printed on the report.' },
    choices: { '': 'not stated', yes: 'yes', no: 'no' },
  },
  diabetes: { label: 'Type of diabetes, since when', hint: 'Such as: type 1, since 1994.' },
  treatment: { label: 'Treatment', hint: 'In your own words.' },
  agreedTargets: { label: 'Targets agreed with the care team' },
} as const

export const TARGETS = {
  group: { label: 'Target range' },
  groups: {
    usual: 'the usual one',
    pregnancy: 'in pregnancy',
    'older-adult': 'for older adults',
    frail: 'for frail older adults',
    own: 'one of my own',
  },
  low: { label: 'From' },
  high: { label: 'To' },
  goalLow: {
    label: 'Own goal before meals, from',
    hint: 'Empty: the published goal for the target, where there is one.',
  },
  goalHigh: { label: 'Own goal before meals, to' },
  unit: { label: 'Unit of the report' },
  unitOfLogs: 'as in the logs',
} as const

// Fields of several forms.
export const METER = { label: 'Meter', hint: 'As its log names it. Empty: all.' } as const
export const ALL_METERS = 'all meters'
export const VIAL = { label: 'Vial or box', hint: 'In your own words.' } as const
export const UNIT = { label: 'Unit' } as const

/** Each list that the visit holds: its title, its lead, what one entry is called where it is changed or added, its fields. */
export const FORMS = {
  questions: {
    title: 'Questions',
    lead: 'What you want to ask at the visit. Printed on the report.',
    thisOne: 'This question',
    addOne: 'Add a question',
    added: 'Added to questions.',
    fields: { text: { label: 'Question' } },
  },
  changes: {
    title: 'Changes',
    lead: 'What changed since the last visit: treatment, meter, illness, daily life.',
    thisOne: 'This change',
    addOne: 'Add a change',
    added: 'Added to changes.',
    fields: { text: { label: 'Change' } },
  },
  strips: {
    title: 'Strips',
    lead: 'Vials or boxes of test strips. Readings with strips out of date are marked as doubtful.',
    thisOne: 'This vial',
    addOne: 'Add a vial',
    added: 'Added to strips.',
    fields: {
      lot: { label: 'Lot', hint: 'Printed on the vial.' },
      expires: { label: 'Expires' },
      opened: { label: 'Opened' },
      finished: { label: 'Finished' },
      daysOnceOpen: { label: 'Days good once open', hint: 'By the leaflet.' },
      coldest: { label: 'Coldest, °C', hint: 'For use, by the leaflet.' },
      hottest: { label: 'Hottest, °C' },
    },
  },
  controls: {
    title: 'Control results',
    lead: 'Tests with control solution, with the range printed on the strips.',
    thisOne: 'This control result',
    addOne: 'Add a control result',
    added: 'Added to control results.',
    fields: {
      date: { label: 'Day' },
      result: { label: 'Result' },
      low: { label: 'Range from' },
      high: { label: 'Range to' },
    },
  },
  medicines: {
    title: 'Medicines',
    lead: 'Some affect test strips, such as a lot of vitamin C or paracetamol. Change nothing on your own; ask.',
    thisOne: 'This medicine',
    addOne: 'Add a medicine',
    added: 'Added to medicines.',
    fields: {
      name: { label: 'Name' },
      milligramsADay: { label: 'Milligrams a day' },
      from: { label: 'From' },
      to: { label: 'To', hint: 'Empty while you take it.' },
    },
  },
  laboratoryA1c: {
    title: 'Laboratory A1C',
    lead: 'Measured in a laboratory. It is shown beside the estimate from the readings.',
    thisOne: 'This laboratory A1C',
    addOne: 'Add a laboratory A1C',
    added: 'Added to laboratory A1C.',
    fields: { date: { label: 'Day' }, value: { label: 'A1C' } },
  },
  clocks: {
    title: 'Meter clocks',
    lead: 'What a meter’s clock showed, and the true time then. It moves no reading.',
    thisOne: 'This clock check',
    addOne: 'Add a clock check',
    added: 'Added to meter clocks.',
    fields: { shown: { label: 'The meter showed' }, true: { label: 'True time' } },
  },
  typed: {
    title: 'Typed readings',
    lead: 'Readings from a paper diary, or ones that a meter lost. They count like any other and are marked as typed.',
    thisOne: 'This reading',
    addOne: 'Add a reading',
    added: 'Added to typed readings.',
    fields: {
      date: { label: 'Day' },
      time: { label: 'Time' },
      value: { label: 'Reading', hint: 'Or LO, HI.' },
      meal: { label: 'Meal', hint: 'Such as before breakfast.' },
      note: { label: 'Note' },
    },
  },
} as const
