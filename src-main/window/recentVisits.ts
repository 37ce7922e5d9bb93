import { mkdir, readFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { parsedJson } from '../../src-core/visit/format'
import { programFolder } from '../program/programFolder'
import { writeOutputs } from '../files/writeFiles'

const MOST = 10

export function recentVisitsIn(folder: string): string {
  return join(folder, 'recent.json')
}

/** Paths of the visits that windows opened or saved last, latest first. Nothing else of them is kept. */
export async function recentVisits(folder = programFolder()): Promise<readonly string[]> {
  const list = parsedJson(await readFile(recentVisitsIn(folder), 'utf8').catch(() => ''))
  return Array.isArray(list) ? list.filter((path) => typeof path === 'string').slice(0, MOST) : []
}

/** Puts a visit at the head of the list. A list that cannot be written is no reason to stop anybody. */
export async function rememberVisit(path: string, folder = programFolder()): Promise<void> {
  const whole = resolve(path)
  const others = (await recentVisits(folder)).filter((other) => other !== whole)
  const content = `${JSON.stringify([whole, ...others].slice(0, MOST), null, 2)}\n`
  await mkdir(folder, { recursive: true, mode: 0o700 })
    .then(() => writeOutputs([{ path: recentVisitsIn(folder), content, ownerOnly: true }]))
    .catch(() => undefined)
}
