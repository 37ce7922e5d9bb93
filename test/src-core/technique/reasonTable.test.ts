import { describe, expect, it } from 'vitest'
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import type { ReasonDefinition } from '../../../src-core/technique/reasons/definition'
import type { NoteTellsOfTechnique } from '../../../src-core/technique/reasons/noteTellsOfTechnique'
import {
  areEnough,
  type DoubtReason,
  type ReasonCode,
  REASON_CODES,
} from '../../../src-core/technique/reasons/reasonTable'
import {
  UNLIKE_NEIGHBOURS,
  type UnlikeNeighbours,
} from '../../../src-core/technique/reasons/unlikeNeighbours'

const BARS = { doubtThreshold: 0.4, doubtThresholdLow: 0.9 }
const NOTE: NoteTellsOfTechnique['evidence'] = { word: 'wet', class: 'wet-finger', direction: 'too-low' }
const CONTROL = { tagged: true }

/** A reason of that code; the table looks at the evidence of notes and control tests alone. */
function reasonOf(code: ReasonCode, evidence: object = code === 'note-tells-of-technique' ? NOTE : CONTROL) {
  return { code, evidence } as DoubtReason
}

/** The rule on doubts as the README and the help for developers state it: alone; a low alone; a low beyond its doubt. */
const RULE: Readonly<Record<ReasonCode, readonly [alone: boolean, lowAlone: boolean, lowByDoubt: boolean]>> =
  {
    'contradicted-by-repeat': [false, false, true],
    'faster-than-glucose-changes': [false, false, false],
    'unlike-neighbours': [false, false, false],
    'note-tells-of-technique': [false, false, true],
    'strip-out-of-date': [true, true, true],
    'failed-control': [true, true, true],
    'at-measuring-limit': [false, false, false],
    'outside-working-temperature': [true, true, true],
    'looks-like-control-solution': [true, true, true],
    'looks-like-other-unit': [false, false, true],
  }

describe('the table of reasons', () => {
  it('has a row for each of the ten reasons and no other', () => {
    expect([...REASON_CODES].sort()).toEqual(Object.keys(RULE).sort())
  })

  it('is refused by the compiler where a definition does not say whether it may flag a low', () => {
    const { mayFlagLow, ...rest } = UNLIKE_NEIGHBOURS
    // @ts-expect-error the answer is missing
    const silent: ReasonDefinition<UnlikeNeighbours> = rest
    expect([mayFlagLow, 'mayFlagLow' in silent]).toEqual([false, false])
  })

  it('lists every definition of its folder', async () => {
    const folder = join(import.meta.dirname, '../../../src-core/technique/reasons')
    const modules = await Promise.all(
      readdirSync(folder).map((file) => import(join(folder, file)) as Promise<Record<string, unknown>>),
    )
    const defined = modules
      .flatMap((module) => Object.values(module))
      .filter((value) => typeof value === 'object' && value !== null && 'finder' in value)
      .map((definition) => 'code' in definition && definition.code)
    expect(defined.sort()).toEqual([...REASON_CODES].sort())
  })

  it.each(Object.entries(RULE))('%s flags alone, a low alone, a low by its doubt: %j', (code, rule) => {
    const reasons = [reasonOf(code as ReasonCode)]
    expect([
      areEnough(reasons, 0, false, BARS),
      areEnough(reasons, 0, true, BARS),
      areEnough(reasons, 1, true, BARS),
    ]).toEqual(rule)
  })

  it('lets no untagged control test and no sugar on the finger flag a low', () => {
    const untagged = reasonOf('looks-like-control-solution', { tagged: false })
    const sugar = reasonOf('note-tells-of-technique', { ...NOTE, direction: 'too-high' })
    for (const reason of [untagged, sugar]) expect(areEnough([reason], 1, true, BARS)).toBe(false)
    expect(areEnough([untagged], 0, false, BARS)).toBe(true)
  })

  it('lets a reason that may not flag a low lend nothing to one that may', () => {
    const near = reasonOf('unlike-neighbours')
    expect(areEnough([near, reasonOf('contradicted-by-repeat')], 0.89, true, BARS)).toBe(false)
    expect(areEnough([near, reasonOf('contradicted-by-repeat')], 0.9, true, BARS)).toBe(true)
  })

  it('flags nothing where no doubt was estimated and no reason stands alone', () => {
    expect(areEnough([reasonOf('contradicted-by-repeat')], NaN, false, BARS)).toBe(false)
  })
})
