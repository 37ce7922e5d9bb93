import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'vite'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { EMPTY_VISIT } from '../../../src-core/visit/visit'
import { lockVisit } from '../../../src-main/files/visitLock'
import { changedOutside, loadVisit, saveVisit } from '../../../src-main/files/visitStore'
import { fixedChance } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'
import { notWritten } from '../../helpers/notWritten'

// Programs killed while they save, and two that save one visit. A few in every run; `npm run test:crashes` does a
// thousand.
const SLOW = process.env.MODE === 'crashes'
const KILLS = SLOW ? 1_000 : 12
const SAVES_EACH = SLOW ? 500 : 25
const LONG = 3_600_000

let folder: string
let program: string
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-crashes-'))
  const entry = join(import.meta.dirname, '../../helpers/savingProcess.ts')
  const outDir = join(import.meta.dirname, '../../../out/test')
  await build({
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true },
    build: { ssr: entry, outDir, rollupOptions: { output: { entryFileNames: 'savingProcess.js' } } },
  })
  program = join(outDir, 'savingProcess.js')
}, LONG)
afterAll(() => {
  rmSync(folder, { recursive: true })
})

/** Runs the saving process; `killAfterMs` counts from its first word. */
function run(args: readonly string[], killAfterMs?: number): Promise<{ said: string; killed: boolean }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [program, ...args], { stdio: ['ignore', 'pipe', 'inherit'] })
    let said = ''
    child.stdout.on('data', (data: Buffer) => {
      if (said === '' && killAfterMs !== undefined) setTimeout(() => child.kill('SIGKILL'), killAfterMs)
      said += data.toString()
    })
    child.on('close', (_, signal) => resolve({ said, killed: signal === 'SIGKILL' }))
  })
}

async function labelIn(path: string): Promise<string> {
  const loaded = await loadVisit(ENGLISH, path, () => Promise.reject(new Error('asked')))
  return loaded.kind === 'loaded' && loaded.damage.length === 0 ? loaded.visit.label : 'not whole'
}

describe('a program killed while it saves', () => {
  it(
    `leaves the visit it saved last or the one it was saving, whole: ${KILLS} times`,
    async () => {
      const path = join(folder, 'killed.visit')
      const chance = fixedChance(3)
      await run(['numbered', path, '0', '2'])
      let next = 2
      let cleared = 0
      for (let kill = 0; kill < KILLS; kill++) {
        const before = readdirSync(folder)
        const { said, killed } = await run(['numbered', path, String(next), '100000'], 25 * chance())
        const last = Number(said.trimEnd().split('\n').at(-1))
        const standing = Number(await labelIn(path))
        expect([killed, standing === last || standing === last + 1]).toEqual([true, true])
        const previous = Number(await labelIn(`${path}.previous`))
        expect([standing, standing - 1].includes(previous)).toBe(true)
        // What the one killed before had left was cleared by the saves of this one.
        const left = before.filter((name) => name.endsWith('.part'))
        cleared += left.length
        expect(readdirSync(folder).filter((name) => left.includes(name))).toEqual([])
        next = standing + 1
      }
      if (SLOW) expect(cleared).toBeGreaterThan(50)
      await run(['numbered', path, String(next), '1'])
      expect(readdirSync(folder).sort()).toEqual(['killed.visit', 'killed.visit.previous'])
    },
    LONG,
  )
})

describe('two programs that save one visit', () => {
  it(
    `${SAVES_EACH} times each: none writes over what the other has saved, the loser is told`,
    async () => {
      const path = join(folder, 'shared.visit')
      await saveVisit({ path, visit: EMPTY_VISIT, passphrase: null, openedAs: null })
      const running = ['a', 'b'].map((name) => run(['adding', path, name, String(SAVES_EACH)]))
      let over = false
      void Promise.all(running).then(() => (over = true))
      while (!over) {
        expect(await labelIn(path)).toBe('')
        await new Promise((resolve) => setTimeout(resolve, 5))
      }
      const told = (await Promise.all(running)).map(
        ({ said }) => JSON.parse(said) as { saved: number; refused: number },
      )
      const loaded = await loadVisit(ENGLISH, path, () => Promise.reject(new Error('asked')))
      const notes = loaded.kind === 'loaded' ? loaded.visit.typed.map(({ note }) => note) : []
      // Every save that was not refused is in the file.
      expect(told.map(({ saved }) => saved)).toEqual(
        ['a', 'b'].map((name) => notes.filter((note) => note === name).length),
      )
      for (const { saved, refused } of told) expect(saved + refused).toBe(SAVES_EACH)
      if (SLOW) expect(told[0].refused + told[1].refused).toBeGreaterThan(0)
    },
    LONG,
  )
})

describe('a visit that another program has open', () => {
  /** A second program that opens the visit; what it says. */
  async function opened(path: string): Promise<{ child: ChildProcess; said: string }> {
    const child = spawn(process.execPath, [program, 'opening', path], { stdio: ['pipe', 'pipe', 'inherit'] })
    const said = await new Promise<string>((resolve) =>
      child.stdout.once('data', (data: Buffer) => resolve(data.toString())),
    )
    return { child, said }
  }
  const over = (child: ChildProcess) => new Promise((resolve) => child.once('close', resolve))

  it('is told to this one and a third, until it is closed or its program is killed', async () => {
    const path = join(folder, 'open.visit')
    await saveVisit({ path, visit: EMPTY_VISIT, passphrase: null, openedAs: null })
    for (const end of ['closed', 'killed']) {
      const { child, said } = await opened(path)
      expect(said).toBe('opened')
      expect(await lockVisit(path)).toBeNull()
      const third = await opened(path)
      expect(third.said).toBe('open elsewhere')
      const thirdIsOver = over(third.child)
      third.child.stdin?.end()
      await thirdIsOver
      expect(await lockVisit(path)).toBeNull()
      const isOver = over(child)
      if (end === 'closed') child.stdin?.end()
      else child.kill('SIGKILL')
      await isOver
      const release = await lockVisit(path)
      expect(release).not.toBeNull()
      await release?.()
    }
    expect(readdirSync(folder).filter((name) => name.includes('open.visit'))).toEqual(['open.visit'])
  })

  it('and is changed there is not written over, and says so before it is saved', async () => {
    const path = join(folder, 'changed.visit')
    const openedAs = await saveVisit({ path, visit: EMPTY_VISIT, passphrase: null, openedAs: null })
    expect(changedOutside(path, openedAs)).toBeNull()
    await run(['numbered', path, '7', '1'])
    expect(changedOutside(path, openedAs)).toBe('changed')
    const mine = { path, visit: { ...EMPTY_VISIT, label: 'mine' }, passphrase: null }
    expect(await notWritten(saveVisit({ ...mine, openedAs }))).toContain('another program has changed it')
    expect(await labelIn(path)).toBe('7')
    expect(changedOutside(join(folder, 'gone.visit'), openedAs)).toBe('gone')
  })
})
