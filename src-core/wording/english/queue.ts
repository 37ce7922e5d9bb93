import { count } from './numbers'

// Reports of a folder that other computers make, by a queue in a Redis. No text of it holds an address as it was typed: a
// password may stand in it.

export const QUEUE_NEEDS_EACH = '--queue hands out the logs of a folder: name it with --each FOLDER.'
export const WORKER_NEEDS_QUEUE =
  '--worker makes what another computer asks for: npm run worker -- --each FOLDER --out FOLDER --queue redis://HOST'
export const notOfWorker = (option: string) =>
  `${option} is said to the computer that asks for the reports, not to a worker.`

const NOTHING_LOST = 'What was made stands; the same command goes on from there.'

/** By what ended it; `detail` is a host, a code or a version. */
export const FAULTS = {
  packages: (detail: string) =>
    `--queue needs two packages that are not installed. In the program’s folder: npm install --no-save ${detail}`,
  address: () =>
    '--queue takes the address of a Redis: redis://HOST, redis://USER@HOST:PORT/NUMBER, or rediss:// with TLS. In a password / ? # @ % ' +
    'are written %2F %3F %23 %40 %25; better, set it as REDIS_PASSWORD.',
  login: (detail: string) =>
    `The Redis refuses the log-in (${detail}). Set REDIS_PASSWORD, and REDIS_USERNAME where it knows users.`,
  evicts: (detail: string) =>
    `The Redis throws data away when it is full (maxmemory-policy ${detail}), and reports would be missing without a word. Set its ` +
    'maxmemory-policy to noeviction.',
  older: (detail: string) =>
    `The reports are asked for by version ${detail} of the program, which is newer than this one; they are left for other workers. ` +
    'Bring this computer to the same version.',
  unreachable: (detail: string) => `No Redis answers at ${detail}. Check the address, and that it runs.`,
  full: () => `The Redis is full: it takes nothing more. Give it more memory (maxmemory). ${NOTHING_LOST}`,
  refused: (detail: string) => `The Redis refuses what it is asked (${detail}). ${NOTHING_LOST}`,
  lost: (detail: string) => `No Redis answered at ${detail} for some minutes. ${NOTHING_LOST}`,
} as const

export const awayText = (host: string) =>
  `The Redis at ${host} is away; tried again until it answers, for some minutes.`
export const BACK = 'The Redis answers again.'
export const NO_WORKERS =
  'No worker takes the logs yet. On each computer that shares the folders: npm run worker -- --each FOLDER --out FOLDER --queue redis://HOST'
export const OTHER_FOLDER =
  'changed meanwhile, or stands otherwise where a worker looked: --each and --out have to be the same shared folders for all. Then run ' +
  'the command again.'
export const workerText = (atOnce: number, version: string) =>
  `Worker of version ${version}: ${count(atOnce, 'report')} at a time, until it is stopped (Ctrl+C; what was begun is finished).`
export const workerEndText = (made: number) => `${count(made, 'log')} done.`
