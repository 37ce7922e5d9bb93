import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openVisit } from '../../src-core/analysis/openVisit'
import type { Bridge } from '../../src-core/bridge/contract'
import { readingView } from '../../src-core/bridge/readingView'
import { stoppedView } from '../../src-core/bridge/stoppedView'
import type { VisitState } from '../../src-core/bridge/visitState'
import { visitView } from '../../src-core/bridge/visitView'
import type { Scene } from '../../src-core/charts/scene'
import { sceneToSvg } from '../../src-core/charts/sceneToSvg'
import { LONGEST_NAME } from '../../src-core/model/named'
import { Lows } from '../../src-renderer/parts/Lows'
import { Picture } from '../../src-renderer/parts/Picture'
import { ReadingDetail } from '../../src-renderer/parts/ReadingDetail'
import { LogsScreen } from '../../src-renderer/screens/LogsScreen'
import type { VisitHold } from '../../src-renderer/useVisit'
import { CONTEXT, logOf } from '../helpers/logs'
import { ENGLISH } from '../../src-core/wording/english'
import { markupOf } from '../helpers/markup'

// Whatever a log holds reaches the window as text, never as markup.

const SOURCES = join(import.meta.dirname, '../../src-renderer')
const HOSTILE = `<img src=x onerror=alert(1)>"'--></script><script>alert(2)</script>`
const nothing = () => undefined
const BRIDGE = {} as Bridge
const VISIT = { busy: '', edit: nothing } as unknown as VisitHold

/** Names of the elements in a piece of markup. */
function elements(markup: string): ReadonlySet<string> {
  return new Set([...markup.matchAll(/<([a-z][\w-]*)/gi)].map(([, name]) => name.toLowerCase()))
}

describe('hostile text in a log', () => {
  it('stays text in a visit: names, meters, meals, notes and rows set aside', () => {
    const cell = `"${HOSTILE.replaceAll('"', '""')}"`
    const rows = [`07:00,61`, `07:02,140`, `12:00,`].map((row) => `2026-03-02,${row},${cell},${cell},${cell}`)
    const text = ['Date,Time,Glucose (mg/dL),Meal,Meter,Note', ...rows, ''].join('\n')
    const outcome = openVisit([logOf(text, `${HOSTILE}.csv`)], {}, CONTEXT)
    if (outcome.kind !== 'analysed') throw new Error('refused')
    const { analysis } = outcome
    const detail = readingView(ENGLISH, analysis, 0)
    if (detail === null) throw new Error('no reading')
    const log = {
      name: `${HOSTILE}.csv`,
      sha256: analysis.sources[0].sha256,
      answers: { columns: HOSTILE },
      answered: HOSTILE,
      moves: [],
    }
    const report = visitView(ENGLISH, analysis, CONTEXT)
    const state = { revision: 1, visit: { logs: [log] }, report } as unknown as VisitState
    const markup = markupOf(
      <>
        <LogsScreen bridge={BRIDGE} state={state} visit={VISIT} onAdd={nothing} onStep={nothing} />
        <Lows lows={report.lows} onOpen={nothing} />
        <ReadingDetail
          view={detail}
          visit={VISIT}
          onNext={nothing}
          onDecided={nothing}
          gone={0}
          told=""
          nextName=""
        />
      </>,
    )
    expect(markup).toContain('&lt;img src=x onerror=alert(1)&gt;')
    expectNoElementOfTheLog(markup)
  })

  it('stays text in a question: the log’s name and its headers', () => {
    const header = `Date,Time,"${HOSTILE.replaceAll('"', '""')}",Meter`
    const text = `${header}\n2026-03-02,07:00,3,a\n2026-03-03,07:00,6,a\n`
    const outcome = openVisit([logOf(text, `${HOSTILE}.csv`)], {}, CONTEXT)
    if (outcome.kind !== 'stopped') throw new Error('nothing is asked')
    const view = stoppedView(ENGLISH, outcome.refusals)
    expect(view.refusals[0].question?.choices.map(({ label }) => label)).toContain(
      `${HOSTILE.slice(0, LONGEST_NAME)}…`,
    )
    const log = {
      name: `${HOSTILE}.csv`,
      sha256: view.refusals[0].sha256,
      answers: {},
      answered: '',
      moves: [],
    }
    const state = { revision: 1, visit: { logs: [log] }, report: view } as unknown as VisitState
    const markup = markupOf(
      <LogsScreen bridge={BRIDGE} state={state} visit={VISIT} onAdd={nothing} onStep={nothing} />,
    )
    expect(markup).toContain('&lt;img src=x onerror=alert(1)&gt;')
    expectNoElementOfTheLog(markup)
  })

  it('would stay text in a picture, which is the one piece set as markup', () => {
    const scene: Scene = {
      width: 100,
      height: 50,
      description: HOSTILE,
      nodes: [
        {
          kind: 'group',
          name: HOSTILE,
          nodes: [
            {
              kind: 'text',
              x: 1,
              y: 1,
              size: 9,
              fill: '#16202c',
              anchor: 'start',
              bold: false,
              text: HOSTILE,
            },
          ],
        },
      ],
    }
    const svg = sceneToSvg(scene)
    const picture = { description: HOSTILE, svg }
    const markup = markupOf(<Picture picture={picture} name="" />)
    expect(markup.match(/&lt;img src=x onerror=alert\(1\)&gt;/g)).toHaveLength(4)
    expectNoElementOfTheLog(markup)
  })

  function expectNoElementOfTheLog(markup: string): void {
    for (const name of ['img', 'script', 'iframe', 'a', 'foreignobject', 'use', 'style']) {
      expect([...elements(markup)]).not.toContain(name)
    }
    // A quote in a value is escaped, so what is left are the names of the attributes.
    const bare = markup.replace(/"[^"]*"/g, '')
    expect(bare.match(/<[^>]*\son\w+=/g)).toBeNull()
  }
})

describe('the sources of the window', () => {
  const files = readdirSync(SOURCES, { recursive: true, encoding: 'utf8' }).filter((name) =>
    /\.tsx?$/.test(name),
  )
  const holding = (pattern: RegExp) =>
    files.filter((name) => pattern.test(readFileSync(join(SOURCES, name), 'utf8')))

  it('set markup in one place only, where the core’s own pictures go', () => {
    expect(holding(/dangerouslySetInnerHTML/)).toEqual([join('parts', 'Picture.tsx')])
  })

  it('use no other way to turn text into markup or code', () => {
    expect(
      holding(
        /innerHTML|outerHTML|insertAdjacentHTML|document\.write|DOMParser|\beval\(|new Function|srcDoc/,
      ),
    ).toEqual([])
  })

  it('keep nothing in the browser and call no address but the bridge', () => {
    expect(holding(/localStorage|indexedDB|caches\.|document\.cookie/)).toEqual([])
    // The key to the program alone, for as long as the tab is open.
    expect(holding(/sessionStorage/)).toEqual(['hostKey.ts'])
    expect(holding(/XMLHttpRequest|WebSocket|EventSource|sendBeacon|https?:\/\//)).toEqual([])
    expect(holding(/\bfetch\b/)).toEqual(['bridge.ts'])
  })
})
