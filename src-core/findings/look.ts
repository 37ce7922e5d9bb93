import type { Settings } from '../model/settings'
import type { Lows } from '../day/lows'
import type { MealPair } from '../day/meals'
import type { Kit } from '../kit/kit'
import type { LogEntry } from '../log/entries'
import type { Readings } from '../log/readings'
import type { Technique } from '../technique/technique'
import type { Facts } from './finding'

/** The readings that findings are looked for in, and what else is known of them. */
export interface Look {
  readonly readings: Readings
  /** Indexes in the logbook, in order of time. */
  readonly indexes: readonly number[]
  readonly settings: Settings
  /** Whether the log tells the meals, so that they name the parts of the day. */
  readonly tellsMeals: boolean
  /** Readings before and after a meal, both among the indexes. */
  readonly pairs: readonly MealPair[]
  readonly lows: Lows
  readonly technique: Technique
  readonly entries: readonly LogEntry[]
  readonly kit: Kit
}

/** Something asked of the readings by one or more tests. */
export interface Question {
  readonly ps: readonly number[]
  /** What is clear, given which of the tests hold after adjusting for all that was asked; null where nothing is. */
  answer(clear: readonly boolean[]): Facts | null
}
