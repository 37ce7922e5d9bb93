import { readdirSync, readFileSync } from 'node:fs'
import { extname, join, relative, sep } from 'node:path'

/** A file of the built window, held in memory. */
export interface Asset {
  readonly type: string
  readonly bytes: Uint8Array<ArrayBuffer>
}

/** The built window's files by path, such as '/index.html'; '/' is the page itself. */
export type Assets = ReadonlyMap<string, Asset>

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
}

/**
 * Reads the built window once, at start. From then on a request can only name an entry of this list: no path
 * that comes from outside is ever opened. Links and files of other types are left out.
 */
export function readAssets(folder: string): Assets {
  const assets = new Map<string, Asset>()
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const type = TYPES[extname(entry.name)]
    if (!entry.isFile() || type === undefined) continue
    const file = join(entry.parentPath, entry.name)
    const path = `/${relative(folder, file).split(sep).join('/')}`
    assets.set(path, { type, bytes: new Uint8Array(readFileSync(file)) })
  }
  const page = assets.get('/index.html')
  if (!page) throw new Error('The built window has no index.html; npm run build makes it')
  return assets.set('/', page)
}
