import { mkdirSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { KIND_NAMES, layoutCase, type LayoutCase } from './cases'
import { judge, type Judgement, type Verdict, VERDICTS } from './judge'

// Invented readings written through random layouts. The generator knows each reading, so the truth never comes from the
// program. A hundred and fifty files in every run; `npm run test:layouts` tries 20,000, with other seeds each day, prints how
// they were read and writes the first that went wrong of each kind to a folder. LAYOUT_SEED gives the first seed,
// LAYOUT_COUNT the number of files, LAYOUT_FOLDER the folder.
const SLOW = process.env.MODE === 'layouts'
const { LAYOUT_SEED, LAYOUT_COUNT, LAYOUT_FOLDER } = process.env
const FIRST = Number(LAYOUT_SEED ?? (SLOW ? Math.floor(Date.now() / 86_400_000) * 100_000 : 1))
const COUNT = Number(LAYOUT_COUNT ?? (SLOW ? 20_000 : 150))
const FOLDER = LAYOUT_FOLDER ?? join(tmpdir(), 'layout-failures')
const FILES_OF_A_KIND = 5
/** How many files a test of the normal run tries. */
const STRETCH = 50
/** Four hours in ms, out of reach of the slow run too where the machine does much else. */
const HOURS = 4 * 3_600_000

/** Files of the normal run that are not read rightly yet; a seed goes from here when it is. */
const NOT_YET: readonly number[] = []

/** How many of the files that a reader can tell must be read rightly: a program may not ask about everything. */
const LEAST_READ = 0.6

interface Judged extends Judgement {
  readonly layout: LayoutCase
}

const HARMS: readonly Verdict[] = ['wrong', 'lost', 'fault']
const isHarm = ({ verdict }: Judged): boolean => HARMS.includes(verdict)

function judged(seed: number): Judged {
  const layout = layoutCase(seed)
  return { ...judge(layout), layout }
}

describe.runIf(!SLOW)('files of random layouts', () => {
  const stretches = Array.from({ length: Math.ceil(COUNT / STRETCH) }, (_, i) => FIRST + i * STRETCH)
  it.each(stretches)('give exactly the readings written into them, or a question, or name the lines left out, from seed %i on', (from) => {
    const all = Array.from({ length: STRETCH }, (_, i) => judged(from + i))
    const harmed = all.filter((each) => isHarm(each) && !NOT_YET.includes(each.layout.seed))
    expect(harmed.map(({ verdict, why, layout }) => `${layout.seed} ${layout.kind}: ${verdict}, ${why}`)).toEqual([])
    const clear = all.filter(({ layout }) => layout.mayAsk.length === 0)
    const read = clear.filter(({ verdict }) => verdict === 'right')
    expect(read.length / clear.length).toBeGreaterThan(LEAST_READ)
  }, HOURS)
}) // prettier-ignore

describe.runIf(SLOW)('many files of random layouts', () => {
  it(
    'give exactly the readings written into them, or a question, or name the lines left out',
    () => {
      const all: Judged[] = []
      const files = new Map<string, number>()
      for (let seed = FIRST; seed < FIRST + COUNT; seed++) {
        const each = judged(seed)
        // The files themselves are made again from the seed where they are looked at.
        all.push({ ...each, layout: { ...each.layout, text: '', truths: [] } })
        const nth = (files.get(each.layout.kind) ?? 0) + 1
        if (isHarm(each) && nth <= FILES_OF_A_KIND) {
          files.set(each.layout.kind, nth)
          keep(each)
        }
      }
      console.log(report(all))
      expect(all.filter(isHarm)).toHaveLength(0)
    },
    HOURS,
  )
})

function keep({ layout, verdict, why }: Judged): void {
  mkdirSync(FOLDER, { recursive: true })
  const { seed, kind, text, truths, mayAsk, features } = layout
  const name = join(FOLDER, `${kind.replaceAll(' ', '-')}-${seed}`)
  writeFileSync(`${name}.csv`, text)
  const readings = truths.map(
    ({ line, at, value, limit, unit }) => `${line} ${at} ${limit === '' ? value : limit} ${unit}`,
  )
  writeFileSync(
    `${name}.json`,
    `${JSON.stringify({ seed, kind, verdict, why, mayAsk, features, readings }, null, 1)}\n`,
  )
}

/** Counts by kind of layout, apart for files that cannot tell, and by what the files are made of. */
function report(all: readonly Judged[]): string {
  const clear = all.filter(({ layout }) => layout.mayAsk.length === 0)
  const unclear = all.filter(({ layout }) => layout.mayAsk.length > 0)
  const ofKind = (list: readonly Judged[], kind: string) => list.filter(({ layout }) => layout.kind === kind)
  const features = [...new Set(clear.flatMap(({ layout }) => layout.features))].sort()
  const codes = new Map<string, number>()
  for (const { verdict, why } of clear) {
    if (verdict === 'asked' || verdict === 'refused') codes.set(`${verdict}: ${why}`, (codes.get(`${verdict}: ${why}`) ?? 0) + 1)
  }
  return [
    `seeds ${FIRST} to ${FIRST + COUNT - 1}`,
    row('layout', ['files', ...VERDICTS, '% asked or refused']),
    ...KIND_NAMES.map((kind) => counts(kind, ofKind(clear, kind))),
    counts('all that a reader can tell', clear),
    ...KIND_NAMES.map((kind) => counts(`unclear: ${kind}`, ofKind(unclear, kind))),
    counts('all that cannot tell', unclear),
    '',
    row('made of', ['files', ...VERDICTS, '% asked or refused']),
    ...features.map((name) => counts(name, clear.filter(({ layout }) => layout.features.includes(name)))),
    '',
    ...[...codes].map(([code, count]) => `${String(count).padStart(6)} ${code}`),
    '',
    ...all.filter(isHarm).slice(0, 60).map(({ layout, verdict, why }) => `${layout.seed} ${layout.kind} [${layout.language}]: ${verdict}, ${why}`),
  ].join('\n')
} // prettier-ignore

function counts(name: string, list: readonly Judged[]): string {
  const of = (verdict: Verdict): number => list.filter((each) => each.verdict === verdict).length
  const held = of('asked') + of('refused')
  const share = list.length === 0 ? '' : ((100 * held) / list.length).toFixed(1)
  return row(name, [list.length, ...VERDICTS.map(of), share])
}

function row(name: string, cells: readonly (string | number)[]): string {
  return name.padEnd(34) + cells.map((cell) => String(cell).padStart(8)).join('')
}
