import { resolve } from 'node:path'
import react from '@vitejs/plugin-react'
import { defineConfig } from 'electron-vite'

const root = import.meta.dirname

const BUNDLED = ['jstat', 'papaparse', 'simple-statistics', 'pdfmake', 'zod', 'jsonc-parser']

export default defineConfig({
  main: {
    build: {
      outDir: 'out/main',
      // One file loads in a fraction of the time of the many of which these libraries are made.
      externalizeDeps: { exclude: BUNDLED },
      rollupOptions: {
        input: {
          cli: resolve(root, 'src-main/cli.ts'),
          desktop: resolve(root, 'src-main/desktop.ts'),
          browser: resolve(root, 'src-main/browser.ts'),
          start: resolve(root, 'src-main/start.ts'),
          calculationWorker: resolve(root, 'src-main/calculationWorker.ts'),
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
        input: { preload: resolve(root, 'src-main/preload.ts') },
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
