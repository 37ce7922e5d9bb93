import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { stoppedView } from '../../../src-core/bridge/stoppedView'
import { visitView } from '../../../src-core/bridge/visitView'
import { CONTEXT, logOf } from '../../helpers/logs'
import { ENGLISH } from '../../../src-core/wording/english'

// The window has no command line: nothing that it shows of a log names an option.

const CORPUS = join(import.meta.dirname, '../../corpus')
const LOGS = readdirSync(CORPUS, { recursive: true, encoding: 'utf8' }).filter((name) =>
  /\.(csv|tsv|txt)$/.test(name),
)

/** Such as '--columns glucose=3'. */
const OPTION = /(^|\s)--[a-z]/

describe('the window', () => {
  it('names no option of the terminal for any log, read, asked about or refused', () => {
    const kinds = new Set<string>()
    for (const name of LOGS) {
      const outcome = openVisit([logOf(readFileSync(join(CORPUS, name)), 'log.csv')], {}, CONTEXT)
      kinds.add(outcome.kind)
      const view =
        outcome.kind === 'stopped'
          ? stoppedView(ENGLISH, outcome.refusals).refusals.map(({ message, question }) => [
              message,
              question?.text,
            ])
          : outcome.kind === 'analysed'
            ? visitView(ENGLISH, outcome.analysis, CONTEXT).logs.map(({ guesses, how, rows, notes }) => [
                guesses,
                how,
                rows,
                notes,
              ])
            : []
      expect(JSON.stringify(view), name).not.toMatch(OPTION)
    }
    expect([...kinds].sort()).toEqual(['analysed', 'stopped'])
  })

  it.each([
    ['a period without readings', { period: { from: 0, to: 5 } }],
    ['columns that are not there', { answers: { columns: 'glucose=Nowhere' } }],
    ['a list of columns that cannot be read', { answers: { columns: 'glucose' } }],
  ])('nor for %s', (_, options) => {
    const outcome = openVisit([logOf('Date,Glucose (mg/dL)\n2026-03-02,110\n')], options, CONTEXT)
    if (outcome.kind !== 'stopped') throw new Error('it was read')
    const [{ message }] = stoppedView(ENGLISH, outcome.refusals).refusals
    expect(message.length).toBeGreaterThan(20)
    expect(message).not.toMatch(OPTION)
  })

  it('tells of a stretch whose clock looks wrong without naming one', () => {
    const row = (day: number, hour: number) =>
      `2026-03-${String(day).padStart(2, '0')},${String((hour + (day >= 10 && day <= 14 ? 12 : 0)) % 24).padStart(2, '0')}:00,110`
    const days = Array.from({ length: 30 }, (_, i) => i + 1)
    const log = `Date,Time,Glucose (mg/dL)\n${days.flatMap((day) => [7, 12, 18, 22].map((hour) => row(day, hour))).join('\n')}\n`
    const outcome = openVisit([logOf(log)], {}, CONTEXT)
    if (outcome.kind !== 'analysed') throw new Error('it was not read')
    const [{ notes, how }] = visitView(ENGLISH, outcome.analysis, CONTEXT).logs
    expect(notes.join()).toContain('look half a day out')
    expect(notes.join()).not.toMatch(OPTION)
    expect(how.suggested).toMatchObject({ minutes: 720 })
  })
})
