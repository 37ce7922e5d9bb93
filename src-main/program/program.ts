import { version } from '../../package.json'

/** The program's name and version, as printed and as they stand in its files. */
export const PROGRAM = { name: 'Visit report', version } as const
