import { passed } from '../../technique/reasons/failedControl'
import type { TypedReading } from '../../model/decision'
import type { ControlResult, LaboratoryA1c, Medicine, Strips } from '../../kit/kit'
import { minutesFast } from '../../kit/meters'
import type { Visit } from '../../visit/visit'
import type { Fields } from './formRequest'
import type { KitList } from './kitForms'
import type { Words } from '../../wording/words'

/** An entry of a list as it is read, and as its form is filled in. */
export interface EntryView {
  readonly text: string
  readonly fields: Fields
}

export type FormsView = { readonly [L in KitList | 'typed']: readonly EntryView[] } & {
  readonly treatment: Fields
  readonly targets: Fields
}

const text = (value: string | number | undefined) => (value === undefined ? '' : String(value))
const joined = (...parts: readonly (string | undefined)[]) => parts.filter((part) => part).join(' · ')

/** All that the forms of the window show. */
export function formsView(words: Words, { kit, typed, targets, goal, unit }: Visit): FormsView {
  const { strips = [], controls = [], medicines = [], clocks = [], laboratoryA1c = [] } = kit
  const own = targets !== null && typeof targets === 'object'
  return {
    strips: strips.map((one) => stripsEntry(words, one)),
    controls: controls.map((one) => controlEntry(words, one)),
    medicines: medicines.map((one) => medicineEntry(words, one)),
    clocks: clocks.map((check) => ({
      text: joined(check.meter, words.forms.clockText(check.true, minutesFast(check))),
      fields: { meter: text(check.meter), shown: check.shown, true: check.true },
    })),
    laboratoryA1c: laboratoryA1c.map(laboratoryEntry),
    changes: (kit.changes ?? []).map(textEntry),
    questions: (kit.questions ?? []).map(textEntry),
    typed: typed.map(typedEntry),
    treatment: {
      answer: kit.canCauseLows === undefined ? '' : kit.canCauseLows ? 'yes' : 'no',
      diabetes: text(kit.diabetes),
      treatment: text(kit.treatment),
      agreedTargets: text(kit.agreedTargets),
    },
    targets: {
      group: own ? 'own' : (targets ?? 'usual'),
      low: own ? text(targets.low) : '',
      high: own ? text(targets.high) : '',
      goalLow: text(goal?.low),
      goalHigh: text(goal?.high),
      unit: unit ?? '',
    },
  }
}

function stripsEntry(words: Words, strips: Strips): EntryView {
  const { vial, lot, meter, expires, opened, finished, daysOnceOpen, workingCelsius } = strips
  const [coldest, hottest] = workingCelsius ?? []
  return {
    text: words.forms.stripsText(strips),
    fields: {
      vial: text(vial),
      lot: text(lot),
      meter: text(meter),
      expires: text(expires),
      opened: text(opened),
      finished: text(finished),
      daysOnceOpen: text(daysOnceOpen),
      coldest: text(coldest),
      hottest: text(hottest),
    },
  }
}

function controlEntry(words: Words, control: ControlResult): EntryView {
  const { date, meter, vial, result, range, unit } = control
  return {
    text: joined(words.forms.controlText(control, passed(control)), meter, vial),
    fields: {
      date,
      result: text(result),
      low: text(range[0]),
      high: text(range[1]),
      unit,
      meter: text(meter),
      vial: text(vial),
    },
  }
}

function medicineEntry(words: Words, medicine: Medicine): EntryView {
  const { name, milligramsADay, from, to } = medicine
  return {
    text: words.forms.medicineText(medicine),
    fields: { name, milligramsADay: text(milligramsADay), from: text(from), to: text(to) },
  }
}

function laboratoryEntry({ date, percent, mmolMol }: LaboratoryA1c): EntryView {
  const unit = percent === undefined ? 'mmol/mol' : '%'
  const value = text(percent ?? mmolMol)
  return { text: joined(date, `${value} ${unit}`), fields: { date, value, unit } }
}

function textEntry(written: string): EntryView {
  return { text: written, fields: { text: written } }
}

function typedEntry({ at, value, unit, meal, note }: TypedReading): EntryView {
  const [date, time = ''] = at.split('T')
  return {
    text: joined(`${date} ${time.slice(0, 5)}`.trim(), `${value} ${unit}`, meal, note),
    fields: { date, time: time.slice(0, 5), value: text(value), unit, meal: text(meal), note: text(note) },
  }
}
