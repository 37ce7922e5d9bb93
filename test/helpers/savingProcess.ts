import { once } from 'node:events'
import { writeSync } from 'node:fs'
import { EMPTY_VISIT } from '../../src-core/visit/visit'
import { BYTE_TOOLS } from '../../src-main/files/byteTools'
import { loadVisit, saveVisit } from '../../src-main/files/visitStore'
import { lockVisit } from '../../src-main/files/visitLock'
import { WriteFailed } from '../../src-main/files/writeFiles'
import { ENGLISH } from '../../src-core/wording/english'

// A process of its own that saves a visit again and again: `savingProcess MODE FILE FROM COUNT`.

const [mode, path, from, count] = process.argv.slice(2)
const bytes = new TextEncoder().encode('Date,Time,Glucose (mg/dL)\n'.repeat(8_000))
const LOG = { name: 'log.csv', bytes, sha256: BYTE_TOOLS.sha256(bytes), answers: {} }

/** Saves numbered visits; says each number once it is saved. */
async function numbered(): Promise<void> {
  for (let n = Number(from); n < Number(from) + Number(count); n++) {
    await saveVisit({
      path,
      visit: { ...EMPTY_VISIT, logs: [LOG], label: String(n) },
      passphrase: null,
      openedAs: null,
    })
    writeSync(1, `${n}\n`)
  }
}

/** Adds a reading at each save of the visit as it finds it; says how many saves were done and how many refused. */
async function adding(): Promise<void> {
  let [saved, refused] = [0, 0]
  for (let i = 0; i < Number(count); i++) {
    const loaded = await loadVisit(ENGLISH, path, () => Promise.reject(new Error('asked')))
    if (loaded.kind !== 'loaded' || loaded.damage.length > 0) throw new Error('the file was not whole')
    const reading = { at: '2026-03-02T07:10', value: 1 + (i % 900), unit: 'mg/dL', note: from } as const
    const visit = { ...loaded.visit, typed: [...loaded.visit.typed, reading] }
    try {
      await saveVisit({ path, visit, passphrase: null, openedAs: loaded.sha256 })
      saved++
    } catch (error) {
      if (!(error instanceof WriteFailed)) throw error
      refused++
    }
  }
  writeSync(1, JSON.stringify({ saved, refused }))
}

/** Opens the visit as a window does, says whether another has it, and keeps it until its input ends. */
async function opening(): Promise<void> {
  const release = await lockVisit(path)
  writeSync(1, release === null ? 'open elsewhere' : 'opened')
  await once(process.stdin.resume(), 'end')
  await release?.()
}

const modes = { numbered, adding, opening }
await modes[mode as keyof typeof modes]()
