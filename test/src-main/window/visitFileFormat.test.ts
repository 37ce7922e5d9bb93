import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { edited } from '../../../src-core/visit/edits'
import { removing } from '../../../src-core/visit/sample'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { readVisit, visitText } from '../../../src-core/visit/visitFile'
import { requestOf } from '../../../src-core/visit/visitRequest'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { loadVisit, visitIn } from '../../../src-main/files/visitStore'
import { CONTEXT } from '../../helpers/logs'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

const ROOT = join(import.meta.dirname, '../../..')
const KEPT = join(import.meta.dirname, '../kept-visits')
const PASSPHRASE = 'Γλυκόζη 104'

const noPassphrase = () => Promise.reject(new Error('a passphrase was asked for'))

const LOG = visitLog('meter.csv', 'Time,Glucose (mg/dL)\n2026-03-02 07:10,104\n2026-03-02 12:00,61\n')

describe('the page that describes a visit file', () => {
  it('has a visit written by hand that opens and is analysed', async () => {
    const page = readFileSync(join(ROOT, 'src-core/visit/VISIT-FILE.md'), 'utf8')
    const example = /```visit\n(.*?)```/s.exec(page)?.[1] ?? ''
    const loaded = await visitIn(ENGLISH, Buffer.from(example), noPassphrase)
    expect(loaded).toMatchObject({
      kind: 'loaded',
      damage: [],
      visit: { label: 'Thursday', logs: [LOG], typed: [{ value: 8.1 }] },
    })
    const { sources, options } = requestOf(ENGLISH, (loaded as { visit: Visit }).visit, BYTE_TOOLS)
    const outcome = openVisit(sources, options, CONTEXT)
    expect(outcome).toMatchObject({
      kind: 'analysed',
      analysis: { readings: { n: 3 }, technique: { decided: [{ choice: 'keep' }] }, decisionsGone: [] },
    })
  })
})

/** What stands in the kept files of version 1. */
const VERSION_1: Visit = {
  logs: [LOG, visitLog('Zähler.csv', new Uint8Array([0xff, 0xfe, 0x44, 0]), { unit: 'mmol/L', dates: 'dmy', columns: 'time=1' })],
  typed: [{ at: '2026-03-02T18:30', value: 8.1, unit: 'mmol/L', meal: 'before dinner', note: '“wet finger”' }],
  decisions: [
    {
      reading: { at: '2026-03-02T12:00', value: '61', unit: 'mg/dL', meter: 'meter A', log: LOG.sha256 },
      choice: 'leave-out',
      reason: 'not mine 🩸',
      decidedAt: '2026-03-03T10:00',
    },
  ],
  kit: { questions: ['Is it the strips?'], laboratoryA1c: [{ date: '2026-02-01', percent: 7.1 }] },
  shifts: [{ from: 20_514, to: 20_515, minutes: -720 }],
  period: { from: 20_514, to: 20_520 },
  versus: { from: 20_500, to: 20_513 },
  targets: { low: 3.9, high: 7.8 },
  goal: null,
  unit: 'mmol/L',
  zone: 'Europe/Berlin',
  paper: 'Letter',
  label: 'Thursday',
  diary: 'all',
} // prettier-ignore

/** What was said in words when there was no code for it; the second decision only sounds like a correction. */
const SAMPLE_CORRECTED: Visit = {
  ...EMPTY_VISIT,
  logs: [LOG],
  typed: [{ at: '2026-03-02T12:00', value: 8.1, unit: 'mmol/L' }],
  decisions: [
    {
      reading: { at: '2026-03-02T12:00', value: '61', unit: 'mg/dL', meter: 'meter A', log: LOG.sha256 },
      choice: 'leave-out',
      reason: '',
      correctedTo: { at: '2026-03-02T12:00', value: 8.1, unit: 'mmol/L' },
      decidedAt: '2026-03-03T10:00',
    },
    {
      reading: { at: '2026-03-02T07:10', value: '104', unit: 'mg/dL', meter: 'meter A', log: LOG.sha256 },
      choice: 'leave-out',
      reason: 'typed by hand instead',
      decidedAt: '2026-03-03T10:01',
    },
  ],
  label: 'Invented sample, not a person',
  sampleLabel: true,
}

describe('a file of version 1 opens for ever', () => {
  it.each(['version-1.visit', 'version-1-protected.visit'])('%s', async (name) => {
    const loaded = await loadVisit(ENGLISH, join(KEPT, name), () => Promise.resolve(PASSPHRASE))
    expect(loaded).toMatchObject({ kind: 'loaded', damage: [] })
    expect((loaded as { visit: Visit }).visit).toEqual(VERSION_1)
  })

  it('with the codes for what it says in words alone, which go with it from then on', async () => {
    const loaded = await loadVisit(ENGLISH, join(KEPT, 'version-1-sample-corrected.visit'), noPassphrase)
    expect(loaded).toMatchObject({ kind: 'loaded', damage: [] })
    const { visit } = loaded as { visit: Visit }
    expect(visit).toEqual(SAMPLE_CORRECTED)
    expect(readVisit(ENGLISH, visitText(visit, BYTE_TOOLS), BYTE_TOOLS)).toEqual({
      kind: 'read',
      visit,
      damage: [],
    })
    // As it did then: the correction goes with its decision, the sample with its label.
    const without = edited(visit, { kind: 'remove-typed', index: 0 })
    expect(without.decisions).toEqual(visit.decisions.slice(1))
    expect(edited(without, removing(without, LOG.sha256, LOG))).toMatchObject({ logs: [], label: '' })
  })
})
