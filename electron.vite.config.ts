import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import react from '@vitejs/plugin-react'
import { defineConfig } from 'electron-vite'
import { build, type Plugin } from 'vite'

const root = import.meta.dirname

const BUNDLED = ['jstat', 'papaparse', 'simple-statistics', 'pdfmake', 'zod', 'jsonc-parser']

/** Loaded where a queue is asked for, and only then. */
const OPTIONAL = ['bullmq', 'ioredis']

/**
 * Leaves out the reader of WOFF2 fonts (in pdfmake’s font library): its dictionary would be a quarter of all that the
 * command line loads, and no such font is ever read.
 */
const withoutWoff2: Plugin = {
  name: 'without-woff2',
  load: (id) =>
    /\/node_modules\/brotli\/decompress\.js$/.test(id)
      ? "export default () => { throw new Error('WOFF2 fonts are not read') }"
      : null,
}

/** Text of ASCII alone is held in half the room and read faster; outside it, JavaScript takes an escape everywhere. */
const ascii: Plugin = {
  name: 'ascii',
  generateBundle(_options, files) {
    for (const file of Object.values(files)) {
      if (file.type === 'chunk') {
        file.code = file.code.replace(
          /[\u0080-\uffff]/g,
          (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`,
        )
      }
    }
  },
}

/** The reader of PDFs lies beside the command line: it is nearly as large as all of that, and seldom needed. */
const pdfReaderBeside: Plugin = {
  name: 'pdf-reader-beside',
  enforce: 'pre',
  resolveId: (id) => (id === './pdfReader' ? { id: './pdfReader.cjs', external: true } : null),
}

/** Builds a CommonJS program of one file. */
function buildFile(outDir: string, entry: string, file: string, plugins: Plugin[]) {
  return build({
    configFile: false,
    root,
    logLevel: 'warn',
    plugins,
    ssr: { noExternal: true },
    build: {
      ssr: resolve(root, entry),
      outDir,
      emptyOutDir: false,
      target: 'node20',
      rollupOptions: {
        output: { format: 'cjs', entryFileNames: file, codeSplitting: false, dynamicImportInCjs: false },
      },
    },
  })
}

/** The command line in one file, beside it the code that Node compiles of it for a report of a sample. */
const reportInOneFile: Plugin = {
  name: 'report-in-one-file',
  apply: 'build',
  async closeBundle() {
    const outDir = resolve(root, 'out/main')
    await buildFile(outDir, 'src-main/files/pdfReader.ts', 'pdfReader.cjs', [])
    await buildFile(outDir, 'src-main/command/reportCommand.ts', 'report.cjs', [
      pdfReaderBeside,
      withoutWoff2,
      ascii,
    ])
    const folder = mkdtempSync(join(tmpdir(), 'report-'))
    const log = resolve(root, 'samples/season-two-meters.csv')
    const outputs = ['--out', join(folder, 'report.pdf'), '--json', join(folder, 'report.json')]
    execFileSync(process.execPath, [join(outDir, 'compileReport.js'), log, ...outputs])
    rmSync(folder, { recursive: true })
  },
}

export default defineConfig({
  main: {
    plugins: [withoutWoff2, reportInOneFile],
    build: {
      outDir: 'out/main',
      // One file loads in a fraction of the time of the many of which these libraries are made.
      externalizeDeps: { exclude: BUNDLED, include: OPTIONAL },
      rollupOptions: {
        input: {
          cli: resolve(root, 'src-main/command/cli.ts'),
          compileReport: resolve(root, 'src-main/command/compileReport.ts'),
          desktop: resolve(root, 'src-main/desktop/desktop.ts'),
          browser: resolve(root, 'src-main/browser/browser.ts'),
          start: resolve(root, 'src-main/desktop/start.ts'),
          folderWorker: resolve(root, 'src-main/command/folderWorker.ts'),
          calculationWorker: resolve(root, 'src-main/window/calculationWorker.ts'),
        },
        output: { format: 'es' },
      },
    },
  },
  preload: {
    build: {
      outDir: 'out/preload',
      // A sandboxed preload script must be one CommonJS file.
      rollupOptions: {
        input: { preload: resolve(root, 'src-main/desktop/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: resolve(root, 'src-renderer'),
    plugins: [react()],
    build: {
      outDir: resolve(root, 'out/renderer'),
      minify: true,
      rollupOptions: { input: resolve(root, 'src-renderer/index.html') },
    },
  },
})
