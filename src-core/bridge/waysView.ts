import { z } from 'zod'
import type { LogAnswers } from '../log/logSource'
import { CHANGEABLE_ROLES } from '../log/namedColumns'
import type { Moved, Ways } from '../log/waysToRead'
import { SHIFT_MINUTES, SPAN } from './windowEdit'
import { heldAt, loggedAt, moveEffect, wayEffect } from '../told/ways'
import type { Words } from '../wording/words'

/** What the window may ask about the reading of a log: what each choice would make of it, or a move of its times. */
export const WAYS_SUBJECT = z.discriminatedUnion('of', [
  z.strictObject({ of: z.literal('unit') }),
  z.strictObject({ of: z.literal('dates') }),
  z.strictObject({ of: z.literal('clock') }),
  z.strictObject({ of: z.literal('column'), role: z.enum(CHANGEABLE_ROLES) }),
  z.strictObject({ of: z.literal('move'), days: SPAN, minutes: SHIFT_MINUTES }),
])
export type WaysSubject = z.infer<typeof WAYS_SUBJECT>

/** The choices, each with two rows as it would have them read and what the log would come to. */
export interface WaysView {
  readonly kind: 'ways'
  readonly ways: readonly WayView[]
  /** Why there is nothing to choose, or how far the choices were tried; '' where there is nothing to say. */
  readonly said: string
}

export interface WayView {
  readonly label: string
  readonly rows: readonly string[]
  readonly effect: string
  /** Null of what holds now. */
  readonly answers: LogAnswers | null
}

/** What moving a stretch of times would do; no rows where nothing would move. */
export interface MoveView {
  readonly kind: 'move'
  readonly rows: readonly string[]
  readonly effect: string
}

export function waysView(words: Words, ways: Ways, of: 'unit' | 'dates' | 'clock' | 'column'): WaysView {
  const said = [
    ...(ways.ways.every(({ isNow }) => isNow) ? [words.waysToRead.NOTHING_ELSE[of]] : []),
    ...(ways.isBeginning ? [words.waysToRead.ONLY_BEGINNING] : []),
  ]
  return {
    kind: 'ways',
    ways: ways.ways.map(({ chosen, answers, isNow, read, shown }) => ({
      label: words.waysToRead.wayLabel(chosen),
      rows: shown.map((index) => words.waysToRead.wayRow(read.readings, index, heldAt(read, index, chosen))),
      effect: words.waysToRead.wayEffect(wayEffect(read)),
      answers: isNow ? null : answers,
    })),
    said: said.join(' '),
  }
}

const ROWS_SHOWN = 2

export function moveView(words: Words, found: Moved): MoveView {
  return {
    kind: 'move',
    rows: found.moved
      .slice(0, ROWS_SHOWN)
      .map((index) => words.waysToRead.movedRow(found.after.readings, index, loggedAt(found, index))),
    effect: words.waysToRead.movedEffect(moveEffect(found)),
  }
}
