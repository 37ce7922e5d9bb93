import { isForeignUnit, isGramsPerLitre, unitIn } from '../glucoseCell'
import type { ColumnRole } from '../logReport'
import { mealMoment } from '../mealWords'
import { conceptsOf, LONGEST_NAME } from './concepts'
import type { Concept } from './lexicon'
import { plain } from './plain'
import { tickMeaning } from './rowMarks'
import { isMeanOfATime } from './sums'

/** What a header's words say of its column. */
export interface HeaderWords {
  /** Null where the words are none of the known ones. */
  readonly role: ColumnRole | null
  /** For glucose: how much the words say so: 3 glucose, 2 a value or a unit of glucose, 1 a moment of the day or an unknown word with a unit. */
  readonly glucose: 0 | 1 | 2 | 3
  /** Whether a unit of glucose is named. */
  readonly unit: boolean
  /** Why the column holds no reading whatever its numbers: another measure, a sum, a goal, a running number. */
  readonly against: 'other' | 'sum' | 'goal' | 'running' | null
  readonly sensor: boolean
  /** For dates and times: of birth, order, print and the like (-1), of the measuring (1). */
  readonly occasion: -1 | 0 | 1
  /** Whether the words name a part of the day or of a meal. */
  readonly moment: boolean
  readonly status: boolean
}

const NONE: HeaderWords = {
  role: null,
  glucose: 0,
  unit: false,
  against: null,
  sensor: false,
  occasion: 0,
  moment: false,
  status: false,
}

const OTHER_UNIT =
  /(?:[\s([{_,;/-](?:g|kg|lb|lbs|st|ml|cl|l|mmhg|kpa|bpm|°c|°f|cm|kcal|kj|ie|iu|ui|u|e|units?|einheiten|be|ke|kh|mmol\s?\/\s?mol|%|min|km|mg)|^(?:kg|lbs?|mmhg|kpa|bpm|kcal|cm|ml)|[([]\s*[cf])\s*[)\]}]?$/i
const CLOCK_HEADER = /^\D{0,8}([01]?\d|2[0-3])([:.h]\s?[0-5]\d|\s?(h|uhr|am|pm|時|点))\D{0,6}$/i

/** '2h' and the like: hours of the clock, or after a meal. */
const FEW_HOURS = /^\D{0,8}[1-4]\s?h\D{0,6}$/i
/** Words for after in a header of hours, as `plain` gives them; of scripts without blanks as they stand. */
const HOURS_AFTER =
  /(^| )(after|post|pp|nach|n|apres|ap|despues|desp|depois|apos|dopo|na|efter|etter|jalkeen|po|utan|sonra|sonrasi|tok|μετα|после)( |$)/

/** When something was measured, not what: 'before insulin', as `plain` gives it. */
const BESIDE_INSULIN =
  /(^| )(before|after|prior to|vor|nach|avant|apres|antes de|despues de|prima|dopo|voor|na) ([a-z]+ )?insulin/

/** Least and greatest of the day, beside glucose or its unit: elsewhere they may be minutes. */
const EXTREME = /(^| )(min|max|lo|hi)( |$)/

/** What was done about a reading, as `plain` gives it. */
const DONE =
  /^(what (i|we|he|she|was|did|happened)\b.*|was (ich|wir|wurde)\b.*|actions? taken|treatments?( given)?|measures? taken|massnahmen?|mesures? prises?|traitement donne|medidas?( tomadas?)?|accion(es)?( tomadas?)?|provvedimenti|maatregel(en)?|tiltak|atgard(er)?|toimenpide|dzialanie|opatreni)$/

/** A calculator of doses, as `plain` gives it. */
const CALCULATOR =
  /(^| )(\p{L}*calculators?|\p{L}*rechner|calculadora|calculat(eur|rice)|calcolatore|rekenmachine|kalkulator\p{L}*|калькулятор\p{L}*|計算機|计算器)( |$)/u

/** Glucose before any food of the day, in Spanish, Italian and Portuguese; by itself it is a kind of insulin. */
const BASAL = /^(?!.*(?:insulin|bolus|lent|rapid)).*\b(basal|basale|basali|basales)\b/

/** A time whose words name the day that it is of, as `plain` gives them. */
const TIME_OF_DAY =
  /^(time of (the )?day|hour of (the )?day|heure (du|de la) jour(nee)?|hora del? dia|ora del giorno|tijd van de dag|tid pa (dagen|dygnet|dognet))$/

/** A finger-stick test on British wards; by itself it may be something else, beside a meal it is not. */
const BM = /^(bm|bms)( |$)|( )(bm|bms)( |$)/

/** Whether a header is a clock time such as '07:00' or '10 pm'; '2h' after a meal is none. */
export function isClockHeader(text: string, group = ''): boolean {
  if (!CLOCK_HEADER.test(text.trim())) return false
  if (!FEW_HOURS.test(text.trim())) return true
  const name = `${group} ${text}`
  const isAfter = HOURS_AFTER.test(plain(name)) || /[後后]/.test(name)
  // Below the name of a meal hours are those since then.
  return !isAfter && (group === '' || !(conceptsOf(group).has('meal') || conceptsOf(group).has('partOfDay')))
}

/** Reads a header; `group` stands above it and `unitRow` below it, '' where there are none. */
export function headerWords(header: string, group = '', unitRow = ''): HeaderWords {
  const full = [group, header]
    .filter((part) => part !== '')
    .join(' ')
    .slice(0, LONGEST_NAME)
  const text = [full, unitRow.slice(0, LONGEST_NAME)]
    .filter((part) => part !== '')
    .join(' ')
    .trim()
  if (plain(text) === '' && !/[%#]/.test(text)) return NONE
  // 'Glucose unit' is a unit, 'Glucose (unit: mg/dL)' is not: the words before a bracket name the column.
  const name = full.split(/[([{]/, 1)[0].trim() || full
  const c = conceptsOf(name)
  const all = conceptsOf(text)
  const has = (...concepts: Concept[]): boolean => concepts.some((concept) => c.has(concept))
  const unit = unitIn(text) ?? (isGramsPerLitre(text) ? 'mg/dL' : null)
  // 'Measuring unit' names no unit, 'Insulin units' does.
  const isUnitWord = /units?$/i.test(text.trim()) && !has('insulin', 'carbohydrate', 'other', 'event')
  const otherUnit = unit === null && !isForeignUnit(text) && !isUnitWord && OTHER_UNIT.test(text)
  const moment = isMoment(name) || isMoment(header)
  const occasion = all.has('administrative') && !moment ? -1 : all.has('measured') ? 1 : 0
  const base = { ...NONE, sensor: has('sensor'), occasion, moment, unit: unit !== null } as const
  const as = (role: ColumnRole, more: Partial<HeaderWords> = {}): HeaderWords => ({ ...base, role, ...more })

  if (has('status') && !has('glucose', 'date', 'time', 'note', 'other') && unit === null)
    return as('ignored', { status: true })
  if (tickMeaning(name) === 'deleted') return as('ignored', { status: true, occasion: -1 })
  if (has('unit') && !has('insulin') && unit === null && !otherUnit) return as('unit')
  // 'Not' by itself is Turkish for a note.
  if (DONE.test(plain(name)) && unit === null) return as('note')
  if ((has('note') || plain(name) === 'not') && unit === null) return as('note')
  if (/temperatu|lampotil|температур|温度|気温/.test(plain(name))) return as('note')
  if (has('goal') && !has('date', 'moment')) return as('ignored', { against: 'goal' })
  if (isMeanOfATime(name)) return as('ignored', { against: 'sum' })
  // What a calculator of doses was given is the reading beside it once more.
  if ((has('glucose') || unit !== null) && CALCULATOR.test(plain(name)))
    return as('ignored', { against: 'other' })
  if ((has('glucose') || unit !== null) && EXTREME.test(plain(name))) return as('ignored', { against: 'sum' })
  if (has('statistic') && (unit !== null || !(has('date', 'moment') && !has('glucose', 'value'))))
    return as('ignored', { against: 'sum' })
  if (has('other') && !(has('value') && all.has('glucose') && !has('other')))
    return as('ignored', { against: 'other' })
  if (has('manual') && !has('glucose')) return as('ignored')
  const hourOfMeal = moment && /\d/.test(name)
  const dated = has('date')
  const timed = has('time') && !hourOfMeal
  if (unit === null && !isClockHeader(header, group)) {
    if (TIME_OF_DAY.test(plain(name))) return as('time')
    if (has('moment') || (dated && timed)) return as('timestamp')
    if (dated && !(moment && !/^\p{L}+$/u.test(plain(header)))) return as('date')
    if (timed) return as('time')
    if (occasion !== 0 && has('administrative') && !has('glucose', 'value', 'kind')) return as('timestamp')
  }
  if (has('meter') && !has('value') && unit === null && !otherUnit) return as('meter')
  const isFasting = has('glucose') && BASAL.test(plain(name))
  const isBesideInsulin = has('glucose') && (isFasting || BESIDE_INSULIN.test(plain(name)))
  if (has('insulin') && !isBesideInsulin) return as('insulin', { against: 'other' })
  if (has('carbohydrate') || (has('glucose') && otherUnit)) return as('carbohydrate', { against: 'other' })
  if (has('glucose') && has('event')) return as('event', { against: 'other' })
  if (otherUnit && !has('glucose')) return as('ignored', { against: 'other' })
  if (has('event') && unit === null && !moment) return as('event', { against: 'other' })
  if (isFasting) return as('glucose', { glucose: 3, moment: true })
  if (has('glucose') || (moment && BM.test(plain(name)))) return as('glucose', { glucose: 3 })
  if (unit !== null) {
    const bare =
      plain(full.replace(/[([{].*$/, '')) === '' || /^(mg|mmol|g) ?(dl|l|per l)?$/.test(plain(full))
    return as('glucose', { glucose: moment ? 1 : bare || has('value') ? 2 : 1 })
  }
  if (has('kind') && !has('value', 'meal')) return as('kind')
  if (moment || isClockHeader(header, group)) return as('meal', { glucose: 1, moment: true })
  if (has('meal')) return as('meal')
  if (has('value')) return as('glucose', { glucose: 2 })
  if (
    /^(tags?|flags?|labels?|markers?|markierung(en)?|etiquettes?|etiquetas?|etichett[ae]|circumstances|umstande)$/.test(
      plain(name),
    )
  )
    return as('note')
  if (has('measured')) return as('timestamp')
  if (has('running') || name === '#') return as('ignored', { against: 'running' })
  return base
}

function isMoment(text: string): boolean {
  return mealMoment(text) !== null || conceptsOf(text).has('partOfDay')
}
