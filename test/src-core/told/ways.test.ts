import { describe, expect, it } from 'vitest'
import { LONGEST_NAME } from '../../../src-core/model/named'
import { moved, type Subject, waysToRead } from '../../../src-core/log/waysToRead'
import { heldAt, loggedAt, moveEffect, wayEffect } from '../../../src-core/told/ways'
import { isoMoment, parseIsoDay } from '../../../src-core/units/wallClock'
import { moveView, waysView } from '../../../src-core/bridge/waysView'
import { ENGLISH } from '../../../src-core/wording/english'
import { CONTEXT, logOf } from '../../helpers/logs'

// What a person is told of a choice before it is made; the truth is written beside each log by hand.

const day = (text: string) => parseIsoDay(text) ?? 0

describe('what a way to read would come to', () => {
  const LOG = logOf(
    'Date,Time,Glucose (mg/dL),Insulin,Remark\n03/02/2026,07:00,69,,shaky\n03/03/2026,07:00,70,4,\n03/14/2026,07:00,110,,\n',
  )
  const ways = (subject: Subject) => waysToRead(LOG, subject, CONTEXT)

  it('counts every low, what is set aside, and other entries', () => {
    const [dmy, mdy] = ways({ of: 'dates' }).ways.map(({ read }) => wayEffect(read))
    expect(mdy).toEqual({
      readings: 3,
      lows: 1,
      unit: 'mg/dL',
      from: day('2026-03-02'),
      to: day('2026-03-14'),
      setAside: 0,
      entries: 1,
    })
    expect(dmy).toMatchObject({ readings: 2, lows: 1, setAside: 1 })
  })

  it('is told in a sentence', () => {
    expect(waysView(ENGLISH, ways({ of: 'dates' }), 'dates').ways[1]).toMatchObject({
      label: 'month first',
      rows: ['line 2: 2 March 2026, 07:00, 69 mg/dL', 'line 3: 3 March 2026, 07:00, 70 mg/dL'],
      effect: '3 readings, 1 below 70 mg/dL, 2 to 14 March 2026; 0 rows set aside; 1 other entry',
      answers: null,
    })
  })

  it('says where nothing else can be chosen', () => {
    const only = logOf('When,Glucose (mg/dL)\n2026-03-02 07:00,300\n')
    expect(waysView(ENGLISH, waysToRead(only, { of: 'unit' }, CONTEXT), 'unit').said).toBe(
      'In the other unit no value of this log could be a reading.',
    )
    expect(waysView(ENGLISH, ways({ of: 'dates' }), 'dates').said).toBe('')
  })

  it('shows the cell that would be a note, short, and of no other choice', () => {
    const long = logOf(`When,Glucose (mg/dL),Remark\n2026-03-02 07:00,69,${'x'.repeat(50)}\n`)
    const found = waysToRead(long, { of: 'column', role: 'note' }, CONTEXT).ways.map(({ read, chosen }) =>
      heldAt(read, 0, chosen),
    )
    expect(found).toContainEqual({ role: 'note', cell: `${'x'.repeat(LONGEST_NAME)}…` })
    for (const { read, chosen } of waysToRead(long, { of: 'column', role: 'unit' }, CONTEXT).ways)
      expect(heldAt(read, 0, chosen)).toBeNull()
  })
})

describe('what moving a stretch would do', () => {
  const LOG = logOf('When,Glucose (mg/dL)\n2026-03-02 07:00,69\n2026-03-02 19:00,69\n2026-03-05 07:00,100\n')

  it('tells each row as logged and as moved, and readings that would be held twice', () => {
    const span = { from: day('2026-03-02'), to: day('2026-03-02') }
    const found = moved(LOG, { ...span, minutes: 720 }, CONTEXT, [])
    if (found === null) throw new Error('cannot be read')
    expect(found.moved.map((index) => isoMoment(loggedAt(found, index)))).toEqual([
      '2026-03-02T07:00',
      '2026-03-02T19:00',
    ])
    expect(moveEffect(found)).toEqual({ moved: 2, lost: 0, won: 0 })
    expect(moveView(ENGLISH, found)).toEqual({
      kind: 'move',
      rows: [
        'line 2: 2 March 2026, 07:00 becomes 19:00, 69 mg/dL',
        'line 3: 2 March 2026, 19:00 becomes 3 March 2026, 07:00, 69 mg/dL',
      ],
      effect: '2 readings would move',
    })
  })

  it('counts those that would be set aside', () => {
    const span = { from: day('2026-03-05'), to: day('2026-03-05') }
    const found = moved(LOG, { ...span, minutes: 527_040 }, CONTEXT, [])
    if (found === null) throw new Error('cannot be read')
    expect(moveEffect(found)).toEqual({ moved: 0, lost: 1, won: 0 })
    expect(ENGLISH.waysToRead.movedEffect({ moved: 1, lost: 0, won: 1 })).toBe(
      '1 reading would move; 1 row set aside now would be a reading',
    )
  })
})
