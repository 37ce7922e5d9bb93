import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { FONT_FAMILY } from '../src-core/charts/sceneToSvg'

/** Files of the one family that the pages embed: Source Sans 3, SIL Open Font License 1.1. */
export interface FontFiles {
  readonly family: string
  readonly regular: string
  readonly semibold: string
}

/** Paths of the font files. The package stays outside the bundle, so it is looked up where the program runs. */
export function fontFiles(): FontFiles {
  const folder = join(dirname(createRequire(import.meta.url).resolve('source-sans/package.json')), 'TTF')
  return {
    family: FONT_FAMILY,
    regular: join(folder, 'SourceSans3-Regular.ttf'),
    semibold: join(folder, 'SourceSans3-Semibold.ttf'),
  }
}
