import { join } from 'node:path'
import { ESLint } from 'eslint'
import tseslint from 'typescript-eslint'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'

// The fences between the folders, held by the lint rules and, for the core, by its compiler settings.

const ROOT = join(import.meta.dirname, '..')

/** The repository's own rules. Types are left out: the fences need none, and the files need not exist. */
const eslint = new ESLint({
  cwd: ROOT,
  overrideConfig: {
    files: ['**/*.{ts,tsx}'],
    ...tseslint.configs.disableTypeChecked,
    languageOptions: { parserOptions: { projectService: false } },
  },
})

const FENCES = [
  'no-restricted-imports',
  '@typescript-eslint/no-restricted-imports',
  'no-restricted-globals',
  'no-restricted-syntax',
  'house/no-sentence-read',
]

/** What the fences say of a line of code in a file of this path. */
async function fences(path: string, code: string): Promise<readonly string[]> {
  const [{ messages }] = await eslint.lintText(`${code}\n`, { filePath: join(ROOT, path) })
  const broken = messages.find(({ fatal }) => fatal)
  if (broken) throw new Error(broken.message)
  return messages.filter(({ ruleId }) => FENCES.includes(ruleId ?? '')).map(({ message }) => message)
}

const PURE = 'The core is pure: take what this module would give as an argument.'
const AROUND = 'The core knows nothing of what is around it: take the value or function as an argument.'
const GLOBAL = 'The core is pure: return the value, or take the function as an argument.'
const MOMENT = "Take the moment as an argument ('nowMs'): the same input must give the same output."
const CHANCE = 'Take a seeded generator as an argument: the same input must give the same output.'
const NO_ELECTRON =
  'Only desktop.ts, window.ts and preload.ts import electron: take what is needed from it as an argument.'
const ANSWER = 'The window is another program: answer it through src-core/bridge/contract.ts.'
const CONNECT = 'The desktop files only connect: the work is done in files that run without Electron.'
const NO_NODE =
  'The window has no Node: ask the program behind it through a channel of src-core/bridge/contract.ts.'
const ASK = 'The window is another program: ask through a channel of src-core/bridge/contract.ts.'
const NO_FIGURES =
  'The window computes nothing: have the figure or the text made in src-core/bridge/visitView.ts. Types may be imported.'

const NO_SENTENCE =
  'No state, rule or lookup reads a sentence: let a code or a flag tell, and make the words from it.'

const ONE_LANGUAGE =
  'These are the sentences of one language: take the catalogue as an argument (words: Words, or context.words).'

const PRINTS = 'Print through terminal.ts: there the control characters of names and logs are seen as marks.'

const FLOOR =
  'A folder of the core imports only those below it (CORE_FLOORS in eslint.config.js): move the shared type down into src-core/model, or take the value as an argument.'
const NO_RULE =
  'A sentence takes what it names as arguments: have the rule in src-core/told (or below) give the number or the code. Types may be imported, and the accessors of a reading (log/readings).'
const BELOW =
  'A room imports only those below it (MAIN_ROOMS in eslint.config.js): move what both need down, or take it as an argument.'

const CORE = 'src-core/statistics/a.ts'
const MAIN = 'src-main/window/a.ts'
const RENDERER = 'src-renderer/parts/A.tsx'

describe('a line across a fence is stopped, and told what to do instead', () => {
  it.each<readonly [path: string, code: string, message: string]>([
    // The core imports nothing outside itself but its few libraries.
    [CORE, "import { readFileSync } from 'node:fs'", PURE],
    [CORE, "import { readFileSync } from 'fs'", PURE],
    [CORE, "import type { Stats } from 'node:fs'", PURE],
    [CORE, "export { join } from 'node:path'", PURE],
    [CORE, "export * from 'node:path'", PURE],
    [CORE, "import 'node:fs'", PURE],
    [CORE, "import { app } from 'electron'", PURE],
    [CORE, "import { useState } from 'react'", PURE],
    [CORE, "import pdfmake from 'pdfmake'", PURE],
    [CORE, "import { visitService } from '../../src-main/window/wiring'", AROUND],
    [CORE, "import type { Output } from '../../src-main/files/writeFiles'", AROUND],
    [CORE, "import { App } from '../../src-renderer/App'", AROUND],
    // Each library in its folders only.
    [CORE, "import Papa from 'papaparse'", PURE],
    [CORE, "import { z } from 'zod'", PURE],
    ['src-core/day/a.ts', "import { mean } from 'simple-statistics'", PURE],
    ['src-core/bridge/a.ts', "import jstat from 'jstat'", PURE],
    ['src-core/log/a.ts', "import parser from 'papaparse/papaparse.min.js'", PURE],
    ['src-core/log/a.ts', "import { visitService } from '../../src-main/window/wiring'", AROUND],
    ['src-core/charts/a.ts', "import { readFileSync } from 'node:fs'", PURE],
    // Words are made from codes, never the other way.
    [
      'src-core/report/a.ts',
      "import { LABEL } from '../wording/a'\nexport const is = (label: string) => label === LABEL",
      NO_SENTENCE,
    ],
    [
      'src-core/report/a.ts',
      "import { WORDS } from '../wording/a'\nexport const is = (said: string) => WORDS.one !== said",
      NO_SENTENCE,
    ],
    [
      'src-core/report/a.ts',
      "import { text } from '../wording/a'\nexport const is = (said: string) => said === text(1)",
      NO_SENTENCE,
    ],
    [
      'src-core/report/a.ts',
      "import { NAME } from '../wording/a'\nexport const is = (said: string) => said.startsWith(NAME)",
      NO_SENTENCE,
    ],
    [
      'src-core/report/a.ts',
      "import type { Words } from '../wording/words'\nexport const is = (words: Words, said: string) => said === words.typed.TYPED_NAME",
      NO_SENTENCE,
    ],
    [
      'src-core/report/a.ts',
      "import type { ReportContext } from './context'\nexport const is = (context: ReportContext) => context.words.day.hoursText([]) === 'a'",
      NO_SENTENCE,
    ],
    // One language is chosen by the hosts, and given to all others.
    ['src-core/report/a.ts', "import { count } from '../wording/english/numbers'", ONE_LANGUAGE],
    ['src-core/wording/years.ts', "import { count } from './english/numbers'", ONE_LANGUAGE],
    ['src-main/pdf/a.ts', "import { ENGLISH } from '../../src-core/wording/english'", ONE_LANGUAGE],
    [
      'src-main/window/visitService.ts',
      "import { ENGLISH } from '../../src-core/wording/english'",
      ONE_LANGUAGE,
    ],
    [CORE, "const TYPED = 'typed by hand'\nexport const is = (name: string) => name === TYPED", NO_SENTENCE],
    [MAIN, 'export const is = (error: Error) => /no space/.test(error.message)', NO_SENTENCE],
    [RENDERER, "export const is = (busy: string) => busy === 'Making the pages …'", NO_SENTENCE],
    // The core reads no clock, no chance and nothing of what runs it.
    [CORE, 'export const a = Date.now()', MOMENT],
    [CORE, 'export const a = new Date()', MOMENT],
    [CORE, 'export const a = Date()', MOMENT],
    [CORE, 'export const a = Math.random()', CHANCE],
    ['src-core/bridge/a.ts', 'export const a = Date.now()', MOMENT],
    [CORE, "console.log('a')", GLOBAL],
    [CORE, 'export const a = process.env', GLOBAL],
    [CORE, "export const a = Buffer.from('a')", GLOBAL],
    [CORE, 'export const a = document.title', GLOBAL],
    [CORE, 'export const a = window.name', GLOBAL],
    [CORE, "export const a = fetch('/')", GLOBAL],
    [CORE, 'setTimeout(() => 1, 1)', GLOBAL],
    ['src-core/log/a.ts', 'setInterval(() => 1, 1)', GLOBAL],
    // Only the desktop files import electron, and they only connect.
    [MAIN, "import { app } from 'electron'", NO_ELECTRON],
    [MAIN, "import type { Session } from 'electron'", NO_ELECTRON],
    [MAIN, "import { app } from 'electron/main'", NO_ELECTRON],
    ['src-main/desktop/bridgeServer.ts', "import { ipcMain } from 'electron'", NO_ELECTRON],
    ['src-main/desktop/desktop.ts', "import { renderPdf } from 'pdfmake'", CONNECT],
    ['src-main/desktop/window.ts', "import { App } from '../../src-renderer/App'", CONNECT],
    ['src-main/desktop/preload.ts', "import { useState } from 'react'", CONNECT],
    // A folder of the core imports only those below it, and none on its own floor.
    ['src-core/statistics/a.ts', "import type { Kit } from '../kit/kit'", FLOOR],
    ['src-core/log/columns/a.ts', "import type { Summary } from '../../statistics/summary'", FLOOR],
    ['src-core/findings/a.ts', "import type { Comparison } from '../compare/comparison'", FLOOR],
    ['src-core/day/a.ts', "import { count } from '../told/years'", FLOOR],
    ['src-core/log/a.ts', "import type { Words } from '../wording/words'", FLOOR],
    ['src-core/analysis/a.ts', "import type { Words } from '../wording/words'", FLOOR],
    ['src-core/told/a.ts', "import type { Words } from '../wording/words'", FLOOR],
    ['src-core/wording/english/a.ts', "import type { Edit } from '../../visit/edits'", FLOOR],
    ['src-core/charts/a.ts', "import type { Block } from '../report/document'", FLOOR],
    ['src-core/shown/a.ts', "import type { Scene } from '../charts/scene'", FLOOR],
    // What pages and window share stands in shown; no folder of the core calls the pages.
    ...['shown', 'exchange', 'visit', 'bridge', 'window'].map(
      (folder) => [`src-core/${folder}/a.ts`, "import { table } from '../report/parts'", FLOOR] as const,
    ),
    ['src-core/bridge/forms/a.ts', "import { table } from '../../report/parts'", FLOOR],
    ['src-core/report/a.ts', "import type { Visit } from '../visit/visit'", FLOOR],
    ['src-core/wording/english/a.ts', "import { FEWEST_READINGS } from '../../statistics/heldBack'", NO_RULE],
    ['src-core/wording/english/a.ts', "import { doubtsOf } from '../../told/doubts'", NO_RULE],
    ['src-core/bridge/a.ts', "import type { Effect } from '../window/effects'", FLOOR],
    ['src-core/bridge/forms/a.ts', "import type { Effect } from '../../window/effects'", FLOOR],
    ['src-core/log/a.ts', "import type { Effect } from '../window/effects'", FLOOR],
    ['src-core/window/a.ts', "import { readFileSync } from 'node:fs'", PURE],
    // A room of the main process imports only those below it.
    ['src-main/files/a.ts', "import { visitService } from '../window/wiring'", BELOW],
    ['src-main/window/a.ts', "import { print } from '../command/terminal'", BELOW],
    ['src-main/program/a.ts', "import type { Output } from '../files/writeFiles'", BELOW],
    // Only one file prints on the terminal.
    [MAIN, "process.stdout.write('a')", PRINTS],
    [MAIN, "process.stderr.write('a')", PRINTS],
    [MAIN, "console.error('a')", PRINTS],
    // The two programs never import each other.
    [MAIN, "import { App } from '../../src-renderer/App'", ANSWER],
    [MAIN, "import type { WindowState } from '../../src-renderer/windowState'", ANSWER],
    [MAIN, "import { renderToString } from 'react-dom/server'", ANSWER],
    [RENDERER, "import { answer } from '../../src-main/window/gate'", ASK],
    [RENDERER, "import type { Reply } from '../../src-main/window/gate'", ASK],
    [RENDERER, "import pdfmake from 'pdfmake'", ASK],
    [RENDERER, "import { ipcRenderer } from 'electron'", NO_ELECTRON],
    [RENDERER, "import { readFileSync } from 'node:fs'", NO_NODE],
    [RENDERER, "import { join } from 'path'", NO_NODE],
    ['src-renderer/a.ts', "import { readFile } from 'fs/promises'", NO_NODE],
    // The window shows; figures and words are made in the core.
    [RENDERER, "import { openVisit } from '../../src-core/analysis/openVisit'", NO_FIGURES],
    [RENDERER, "import { glucoseText } from '../../src-core/wording/english/numbers'", NO_FIGURES],
    [RENDERER, "import { ENGLISH } from '../../src-core/wording/english'", NO_FIGURES],
    [RENDERER, "import { ARGUMENTS } from '../../src-core/bridge/contract'", NO_FIGURES],
    [
      RENDERER,
      "import { stoppedView, type StoppedView } from '../../src-core/bridge/stoppedView'",
      NO_FIGURES,
    ],
  ])('%s: %s', async (path, code, message) => {
    const said = await fences(path, code)
    expect(said).toHaveLength(1)
    expect(said[0]).toContain(message)
  })
})

describe('a line within the fences is left alone', () => {
  it.each<readonly [path: string, code: string]>([
    [CORE, "import { isLow } from '../log/readings'"],
    [CORE, "import { quantile } from './quantile'"],
    [CORE, "import { quantileSorted } from 'simple-statistics'"],
    ['src-core/statistics/wilson.ts', "import jstat from 'jstat'"],
    ['src-core/technique/reasons/a.ts', "import { mean } from 'simple-statistics'"],
    ['src-core/log/a.ts', "import Papa from 'papaparse'"],
    ['src-core/exchange/a.ts', "import Papa from 'papaparse'"],
    ['src-core/bridge/a.ts', "import { z } from 'zod'"],
    [CORE, 'export const a = new Date(0)'],
    [CORE, 'export const a = Date.UTC(2026, 5, 30)'],
    [CORE, 'export const a = Math.round(1.5)'],
    [MAIN, "import { readFileSync } from 'node:fs'"],
    [MAIN, "import { openVisit } from '../../src-core/analysis/openVisit'"],
    [MAIN, "import pdfmake from 'pdfmake'"],
    [MAIN, 'export const a = Date.now()'],
    [MAIN, "import { electronRuntime } from './electronRuntime'"],
    ['src-main/desktop/desktop.ts', "import { app } from 'electron'"],
    ['src-main/desktop/window.ts', "import type { Session } from 'electron'"],
    ['src-main/window/a.ts', "import type { Output } from '../files/writeFiles'"],
    ['src-core/log/columns/a.ts', "import type { GlucoseUnit } from '../../units/glucose'"],
    ['src-core/log/columns/a.ts', "import { plain } from '../words/plain'"],
    ['src-core/findings/a.ts', "import type { Summary } from '../statistics/summary'"],
    ['src-main/browser/a.ts', "import { print } from '../command/terminal'"],
    ['src-main/desktop/preload.ts', "import { contextBridge } from 'electron'"],
    ['src-main/desktop/desktop.ts', "import { CHANNELS } from '../../src-core/bridge/channels'"],
    [RENDERER, "import { useState } from 'react'"],
    ['src-renderer/a.tsx', "import { createRoot } from 'react-dom/client'"],
    ['src-renderer/main.tsx', "import { ENGLISH_OF_WINDOW } from '../src-core/wording/english/ofWindow'"],
    [RENDERER, "import type { OpenedView } from '../../src-core/bridge/visitView'"],
    [RENDERER, "import { type OpenedView } from '../../src-core/bridge/visitView'"],
    [RENDERER, "import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'"],
    ['src-renderer/a.ts', "import { encodeMessage } from '../src-core/bridge/wire'"],
    [RENDERER, 'export const a = document.title'],
    ['test/src-core/a.test.ts', "import { readFileSync } from 'node:fs'"],
  ])('%s: %s', async (path, code) => {
    expect(await fences(path, code)).toEqual([])
  })
})

describe('the compiler settings of the core', () => {
  /** What the compiler says of code that stands in the core, by the core's own settings. */
  function compiled(code: string): readonly string[] {
    const folder = join(ROOT, 'src-core')
    const config = ts.getParsedCommandLineOfConfigFile(
      join(folder, 'tsconfig.json'),
      {},
      {
        ...ts.sys,
        onUnRecoverableConfigFileDiagnostic: ({ messageText }) => {
          throw new Error(ts.flattenDiagnosticMessageText(messageText, ' '))
        },
      },
    )
    if (!config) throw new Error('no settings')
    const file = join(folder, 'units/probe.ts')
    const host = ts.createCompilerHost(config.options)
    const ofDisk = { ...host }
    host.fileExists = (name) => name === file || ofDisk.fileExists(name)
    host.readFile = (name) => (name === file ? code : ofDisk.readFile(name))
    host.getSourceFile = (name, ...more) =>
      name === file
        ? ts.createSourceFile(name, code, ts.ScriptTarget.Latest)
        : ofDisk.getSourceFile(name, ...more)
    // The core's own declarations count: they say what platform it stands on.
    const declarations = config.fileNames.filter((name) => name.endsWith('.d.ts'))
    const program = ts.createProgram([file, ...declarations], config.options, host)
    return program
      .getSemanticDiagnostics(program.getSourceFile(file))
      .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, ' '))
  }

  it.each([
    'document.title',
    'window.name',
    'localStorage.length',
    'navigator.language',
    'process.env',
    "Buffer.from('a')",
    "require('node:fs')",
    '__dirname',
    'setTimeout(() => 1, 1)',
    "fetch('/')",
    'performance.now()',
    'crypto.randomUUID()',
    'new Worker("a")',
  ])('know no %s', (code) => {
    expect(compiled(`export const probe = ${code}`)).toEqual([expect.stringMatching(/^Cannot find name/)])
  })

  it('know no module of Node, however it is imported', () => {
    const unknown = [expect.stringMatching(/^Cannot find (name|module) 'node:fs'/)]
    expect(compiled("export * from 'node:fs'")).toEqual(unknown)
    expect(compiled("export const probe = import('node:fs')")).toEqual(unknown)
  })

  it('know the language, and the decoders that both platforms have', () => {
    expect(compiled("export const probe = new TextDecoder('utf-8')")).toEqual([])
    expect(compiled('export const probe = [3, 1].toSorted()')).toEqual([])
  })
})
