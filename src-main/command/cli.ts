import { runReport } from './reportBundle'

// The command line; its work is in `reportCommand.ts`, that of a folder of logs in `folderCommand.ts`.
if (process.argv.some((argument) => /^--each(=|$)/.test(argument))) {
  await (await import('./folderCommand')).folderCommand(import.meta.dirname)
} else runReport(import.meta.dirname)
