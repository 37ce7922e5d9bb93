import type { PeriodFigures } from '../../analysis/analysis'
import type { Lows } from '../../day/lows'
import type { LogReport } from '../../log/logReport'
import { LIMITS } from '../../reference/limits'
import type { PeriodA1c } from '../../told/estimatedA1c'
import type { columnsTold, setAsideTold } from '../../told/logs'
import type { Measure, Naming } from '../../told/measures'
import type { GlucoseUnit } from '../../units/glucose'
import { spanText } from './dates'
import {
  A1C_LABEL,
  A1C_OUTSIDE_TABLE,
  a1cDaysText,
  a1cValueText,
  heldBackText,
  measureLabel,
  notLaboratoryText,
  targetText,
  valueText,
  valueWithPercent,
} from './figures'
import { kindText } from './head'
import { noteText } from './importMessages'
import { columnsText, listedWithMore } from './logs'
import { confirmedSentence } from './lows'
import { count, limitText } from './numbers'
import { inTargetPhrase } from './sensor'

const BASIS = {
  header: 'from the header',
  cell: 'from the cells',
  column: 'from the unit column',
  values: 'from the size of the values',
  answer: 'as you said',
  form: 'by their form',
  rows: 'decided by the rows',
} as const
const ORDER = {
  ymd: 'year-month-day',
  dmy: 'day-month-year',
  mdy: 'month-day-year',
  epoch: 'epoch numbers',
  serial: 'spreadsheet serials',
  name: 'with month names',
} as const

export const CLOSING_LINE = 'For discussion with the care team. Do not change doses from these figures.'

/** '2 March to 30 May 2026: 478 finger-stick readings on 90 of 90 days'. */
export function extentLine({ from, to, asLogged, kind, daysWithReadings, days }: PeriodFigures): string {
  return `${spanText(from, to)}: ${count(asLogged.n, `${kindText(kind)} reading`)} on ${daysWithReadings} of ${count(days, 'day')}`
}

export function lowsLine(
  { readingsBelow70, readingsBelow54 }: Pick<Lows, 'readingsBelow70' | 'readingsBelow54'>,
  confirmed: number,
  unit: GlucoseUnit,
): string {
  if (readingsBelow70 === 0) return 'Lows: none recorded. That does not show that there were none.'
  return (
    `Lows: ${count(readingsBelow70, 'reading')} below ${limitText(LIMITS.low, unit)}, ` +
    `${readingsBelow54} below ${limitText(LIMITS.veryLow, unit)}. Every one counts.` +
    (confirmed === 0 ? '' : ` ${confirmedSentence(confirmed)}`)
  )
}

export const lowsOfSensorLine = (headline: string) => `Lows: ${headline}`

/** 'Mean 145 mg/dL, SD 46, coefficient of variation 32 %, 82 % of readings from 70 to 180 mg/dL'. */
export function figuresLine(
  { mean, sd, cv, inTarget }: Readonly<Record<'mean' | 'sd' | 'cv' | 'inTarget', Measure>>,
  of: Naming,
): string {
  const { unit, kind, targetLow, targetHigh } = of
  const target = `${targetText(targetLow, targetHigh, unit)} ${unit}`
  const share = valueText(inTarget, unit)
  const cvName = measureLabel('cvPercent', of).toLowerCase()
  const { heldBack } = inTarget
  return [
    mean.heldBack === null
      ? `${measureLabel('meanMgDl', of)} ${valueText(mean, unit)} ${unit}`
      : `Mean, SD and estimated A1C ${heldBackText(mean.heldBack)}`,
    ...(sd.heldBack === null
      ? [
          `${measureLabel('sdMgDl', of)} ${valueText(sd, unit)}`,
          ...(heldBack === null ? [`${cvName} ${valueWithPercent(cv, unit)}`] : []),
        ]
      : []),
    heldBack !== null
      ? `${sd.heldBack === null ? `${cvName} and ` : ''}readings in ${target} ${heldBackText(heldBack)}`
      : inTarget.counted === null
        ? inTargetPhrase(kind, target, share)
        : `${share} from ${target}`,
  ].join(', ')
}

/** The estimate, or why there is none. */
export function a1cLine(
  a1c: PeriodA1c,
  { kind }: Pick<PeriodFigures, 'kind'>,
  indicator: string | null,
  unit: GlucoseUnit,
): string {
  const { heldBack, outsideTable } = a1c
  const beside = indicator === null ? '' : `; ${indicator}`
  if (heldBack !== null) return `${A1C_LABEL}: ${heldBackText(heldBack)}${beside}`
  const value = outsideTable ? A1C_OUTSIDE_TABLE : `${a1cValueText(a1c)} %`
  return `${A1C_LABEL}: ${value}, ${a1cDaysText(a1c, unit)}; ${notLaboratoryText(kind)}${beside}`
}

/** How a log was read; `setAside`: lines by reason. */
export function logLines(
  log: LogReport,
  columns: ReturnType<typeof columnsTold>,
  setAside: ReturnType<typeof setAsideTold>,
): readonly string[] {
  const unit = `${log.unit.value === 'mixed' ? 'mg/dL and mmol/L mixed' : log.unit.value} ${BASIS[log.unit.basis]}`
  const dates = `dates ${ORDER[log.dateOrder.value]} ${BASIS[log.dateOrder.basis]}`
  return [
    `${log.name}: ${log.rows.accepted} of ${count(log.rows.total, 'row')} read; ${unit}; ${dates}`,
    `  ${columnsText(columns)}`,
    ...setAside.map(
      ({ reason, rows }) =>
        `  set aside, ${reason}: ${rows.n === 1 ? 'line' : 'lines'} ${listedWithMore(rows, ({ line }) => String(line))}`,
    ),
    ...log.notes.map((note) => `  ${noteText(note, 'terminal')}`),
  ]
}
