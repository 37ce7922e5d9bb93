// What the desktop shell says around the window: its title, its menu, its dialogs, and where it cannot be opened.

export const TITLE = 'Visit report'

export const MENU = {
  file: 'File',
  open: 'Open a visit …',
  save: 'Save',
  print: 'Print …',
  view: 'View',
} as const

/** What kinds of file a dialog offers. */
export const FILE_KINDS = { visit: 'Visit', all: 'All files' } as const

/** Above what is said of files that could not be opened. */
export const NOT_OPENED = 'Not opened'

/** What `npm start` says where the desktop window cannot be opened. */
export const NO_RUNTIME = `The desktop window needs Electron's runtime, which is not on this computer. Nothing has been downloaded.

The same window opens in your own browser without it:

  npm run browser

With a network connection, npx install-electron downloads the runtime; npm start then opens the window.
`
