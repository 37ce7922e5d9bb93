import { type DisturbedBy, interferencesOf } from '../kit/interferences'
import type { ClockCheck, Kit } from '../kit/kit'
import { minutesFast } from '../kit/meters'
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

/** So many are told on the first page (design choice). */
const MOST_FIRST = 3

/** Those told first: what is dangerous before what reads high; what merely reads off stands behind. */
export function disturbancesFirst(kit: Kit, latest: DayNumber): readonly DisturbanceTold[] {
  return disturbancesTold(kit, latest)
    .filter(({ interference: { kind } }) => kind !== 'reads-off')
    .sort((a, b) => Number(isDangerous(b)) - Number(isDangerous(a)))
    .slice(0, MOST_FIRST)
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
