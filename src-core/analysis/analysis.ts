import type { Decision } from '../model/decision'
import type { Comparison } from '../compare/comparison'
import type { Kit } from '../kit/kit'
import type { LaboratoryBeside } from '../kit/laboratoryA1c'
import type { LogEntry } from '../log/entries'
import type { LogReport } from '../log/logReport'
import type { DaySpan, Readings } from '../log/readings'
import type { LatestStretch } from '../day/latestStretch'
import type { Lows } from '../day/lows'
import type { ByMeal } from '../day/meals'
import type { Unprompted } from '../day/promptedTests'
import type { TimeOfDay } from '../day/timeOfDay'
import type { Week } from '../day/week'
import type { Found } from '../findings/findings'
import type { Intervals } from '../statistics/intervals'
import type { LatestA1c } from '../statistics/latestA1c'
import type { Summary } from '../statistics/summary'
import type { EquipmentStretch } from '../technique/equipmentStretches'
import type { Technique } from '../technique/technique'
import type { Settings } from '../model/settings'

/** The figures of one period; with what stands out in it, lows first. */
export interface PeriodFigures extends DaySpan, Found {
  /** Indexes `[start, end)` of the period's readings in the logbook. */
  readonly start: number
  readonly end: number
  readonly days: number
  readonly daysWithReadings: number
  readonly readingsPerDay: number
  readonly kind: 'finger-stick' | 'sensor'
  /** Every accepted reading. */
  readonly asLogged: Summary
  /** Doubtful readings left out, repeats averaged; lows as logged. */
  readonly checked: Summary
  /** 95 % intervals of the figures of both. */
  readonly intervals: { readonly asLogged: Intervals; readonly checked: Intervals }
  /** As logged without HI and LO markers; null where there are none. */
  readonly withoutMarkers: Summary | null
  /** The A1C estimated from the latest 90 days, of the same readings as the figures. */
  readonly latestA1c: {
    readonly asLogged: LatestA1c
    readonly checked: LatestA1c
    /** Null where there are no markers. */
    readonly withoutMarkers: LatestA1c | null
  }
  readonly timeOfDay: TimeOfDay
  readonly byMeal: ByMeal
  readonly week: Week
  /** The latest 30 days beside the rest; null of a period of 90 days or fewer. */
  readonly latestStretch: LatestStretch | null
  /** Without tests that something felt seems to have prompted; null where there are none. */
  readonly unprompted: Unprompted | null
  readonly lows: Lows
}

/** All that the pages, the window and the files are made from. */
export interface Analysis {
  readonly settings: Settings
  /** One for each log, in the order given. */
  readonly sources: readonly LogReport[]
  /** The logbook: every accepted reading of every log, duplicates counted once. */
  readonly readings: Readings
  readonly duplicatesAcrossLogs: number
  /** Insulin, carbohydrates and events as the logs have them; nothing is computed with them. */
  readonly entries: readonly LogEntry[]
  /** What the person told besides the logs. */
  readonly kit: Kit
  /** Each laboratory A1C beside the readings before it. */
  readonly laboratory: readonly LaboratoryBeside[]
  readonly technique: Technique
  /** Readings of the whole logbook that one fault of strips or meter makes doubtful. */
  readonly stretches: readonly EquipmentStretch[]
  /** Indexes of the doubtful readings that carry a '?': all but those of a stretch that is told once. */
  readonly marked: ReadonlySet<number>
  /** Indexes of the other doubtful readings: a bracket stands in the place of their marks. */
  readonly bracketed: ReadonlySet<number>
  /** What was decided of readings that are in none of the logs. */
  readonly decisionsGone: readonly Decision[]
  /** The period asked for first, then the one to compare it with, if any. */
  readonly periods: readonly PeriodFigures[]
  /** The first period against the second; null where one period was asked for. */
  readonly comparison: Comparison | null
}
