import type { Analysis } from '../analysis/analysis'
import { type DisturbedBy, interferencesOf } from '../kit/interferences'
import type { ClockCheck, Kit } from '../kit/kit'
import { minutesFast } from '../kit/meters'
import { passed } from '../technique/reasons/failedControl'
import { calendarDate, type DayNumber, dayOfDate } from '../units/wallClock'
import type { Years } from './years'

// What is told of the kit: of medicines that disturb strips, of clocks, and how its dates are written. Vials: vials.ts.

/** A medicine that disturbs some meters. */
export interface DisturbanceTold extends DisturbedBy {
  /** Its last day, where it may have hidden lows and ended before the latest reading: nothing is to be confirmed today. */
  readonly hidLowsUntil: DayNumber | null
}

export const isDangerous = ({ interference }: DisturbedBy) => interference.kind === 'reads-dangerously-high'

/** Every medicine that disturbs some meters; `latest`: the day of the latest reading. */
export function disturbancesTold(kit: Kit, latest: DayNumber): readonly DisturbanceTold[] {
  return interferencesOf(kit).map((found) => {
    const { to } = found.medicine
    const until = to === undefined ? Infinity : dayOfDate(to)
    return { ...found, hidLowsUntil: isDangerous(found) && until < latest ? until : null }
  })
}

/** So many medicines are told on the first page (design choice). */
const MOST_FIRST = 3

/**
 * What of the kit is told first: of medicines what is dangerous before what reads high, while what merely reads off stands
 * behind; of changes and questions the first, with the number of further ones; of laboratory A1Cs the latest.
 */
export function kitFirst({ kit, laboratory }: Pick<Analysis, 'kit' | 'laboratory'>, latest: DayNumber) {
  const { changes = [], questions = [] } = kit
  return {
    disturbances: disturbancesTold(kit, latest)
      .filter(({ interference: { kind } }) => kind !== 'reads-off')
      .sort((a, b) => Number(isDangerous(b)) - Number(isDangerous(a)))
      .slice(0, MOST_FIRST),
    change: changes[0],
    laboratory: laboratory.at(-1),
    question: questions[0],
    furtherQuestions: questions.length - 1,
  }
}

/** The control results in order of their dates, each with whether it lay inside its range. */
export function controlsTold({ controls = [] }: Kit) {
  return [...controls]
    .sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))
    .map((control) => ({ control, inside: passed(control) }))
}

/** What a meter's clock showed; minutes without a sign. */
export interface ClockTold extends ClockCheck {
  readonly is: 'right' | 'fast' | 'slow'
  readonly minutes: number
}

export function clockTold(check: ClockCheck): ClockTold {
  const minutes = minutesFast(check)
  return {
    ...check,
    is: minutes === 0 ? 'right' : minutes > 0 ? 'fast' : 'slow',
    minutes: Math.abs(minutes),
  }
}

/** Dates of the kit carry their year once one of them is of another year than the latest reading; else as `ofLogs`. */
export function yearsOfKit(kit: Kit, latest: DayNumber, ofLogs: Years): Years {
  const told = [
    ...(kit.strips ?? []).flatMap(({ expires, opened, finished }) => [expires, opened, finished]),
    ...(kit.medicines ?? []).flatMap(({ from, to }) => [from, to]),
    ...[kit.controls, kit.laboratoryA1c, kit.teachings].flatMap((list) => list?.map(({ date }) => date)),
    ...(kit.clocks ?? []).map((clock) => clock.true),
  ]
  const { year } = calendarDate(latest)
  return told.some((date) => date !== undefined && Number(date.slice(0, 4)) !== year) ? 'with-year' : ofLogs
}
