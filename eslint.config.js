import { builtinModules } from 'node:module'
import js from '@eslint/js'
import jsxA11y from 'eslint-plugin-jsx-a11y'
import reactHooks from 'eslint-plugin-react-hooks'
import tseslint from 'typescript-eslint'
import { noSentenceRead } from './eslint.rules.js'

// The fences between the folders. Each message says what to do instead.

/** Libraries of the core, each with the only folders that may import it. */
const CORE_LIBRARIES = {
  papaparse: ['log', 'exchange', 'visit'],
  'simple-statistics': ['statistics', 'technique'],
  jstat: ['statistics'],
  zod: ['bridge', 'kit', 'visit'],
  'jsonc-parser': ['kit'],
}
/** Folders of the core whose floors are held, from the ground up; two on one floor do not import each other. */
const CORE_FLOORS = [
  ['units'],
  ['reference'],
  ['model'],
  ['log'],
  ['statistics'],
  ['kit'],
  ['technique'],
  ['day'],
  ['compare', 'findings'],
  ['analysis'],
  ['told'],
  ['wording'],
  ['shown'],
  ['charts'],
  ['report', 'exchange', 'visit'],
  ['bridge'],
  ['window'],
]
const CORE_FOLDERS = CORE_FLOORS.flat()

/** What a folder of the core must not import of the others; the pages are for those who print, never for a folder of it. */
function aboveFloor(folder) {
  const floor = CORE_FLOORS.findIndex((folders) => folders.includes(folder))
  const others = [...CORE_FLOORS.slice(floor).flat(), 'report'].filter((one) => one !== folder)
  if (floor < 0) return null
  return {
    regex: `^(\\.\\./)+(${others.join('|')})/`,
    message:
      'A folder of the core imports only those below it (CORE_FLOORS in eslint.config.js): move the shared type down into src-core/model, or take the value as an argument.',
  }
}

/** Forbids a core folder every import from outside the core but its own libraries. */
function coreImports(folder) {
  const libraries = Object.keys(CORE_LIBRARIES).filter((name) => CORE_LIBRARIES[name].includes(folder))
  const allowed = ['\\.{1,2}/', ...libraries.map((name) => `${name}$`)].join('|')
  return {
    'no-restricted-imports': [
      'error',
      {
        patterns: [
          {
            regex:
              '^\\.{1,2}/(.*/)?(src-main|src-renderer|test|samples|out|node_modules|package\\.json)(/|$)',
            message:
              'The core knows nothing of what is around it: take the value or function as an argument.',
          },
          {
            regex: `^(?!${allowed})`,
            message:
              'The core is pure: take what this module would give as an argument. Its few libraries each belong to one folder (CORE_LIBRARIES in eslint.config.js).',
          },
          aboveFloor(folder),
        ].filter((pattern) => pattern !== null),
      },
    ],
  }
}

/** Rooms of the main process, each with those below it that it may import. */
const MAIN_ROOMS = {
  program: [],
  files: ['program'],
  pdf: ['program', 'files'],
  window: ['program', 'files', 'pdf'],
  command: ['program', 'files', 'pdf'],
  browser: ['program', 'window', 'command'],
  desktop: ['program', 'window', 'command'],
}

const NOT_PURE = [
  {
    selector: "MemberExpression[object.name='Date'][property.name='now']",
    message: "Take the moment as an argument ('nowMs'): the same input must give the same output.",
  },
  {
    selector: "NewExpression[callee.name='Date'][arguments.length=0]",
    message: "Take the moment as an argument ('nowMs'): the same input must give the same output.",
  },
  {
    selector: "CallExpression[callee.name='Date']",
    message: "Take the moment as an argument ('nowMs'): the same input must give the same output.",
  },
  {
    selector: "MemberExpression[object.name='Math'][property.name='random']",
    message: 'Take a seeded generator as an argument: the same input must give the same output.',
  },
]

const LATE_IMPORT = {
  selector: 'ImportExpression',
  message: 'Import it at the head of the file: only there the fences between the folders see it.',
}

/** Reads the zone or the language of the computer. */
const NOT_ANYWHERE_THE_SAME = [
  {
    selector:
      'MemberExpression[property.name=/^([gs]et(FullYear|Month|Date|Day|Hours|Minutes|Seconds|Milliseconds)|getTimezoneOffset)$/]',
    message: 'Use the UTC form, or units/wallClock.ts: the zone of the computer must not matter.',
  },
  {
    selector: "NewExpression[callee.name='Date'][arguments.length>1]",
    message: 'Use Date.UTC, or units/wallClock.ts: the zone of the computer must not matter.',
  },
  {
    selector: 'MemberExpression[property.name=/^(toLocale(Date|Time)?String|resolvedOptions)$/]',
    message: 'Use src-core/wording, or take the zone as an argument: the computer’s own must not matter.',
  },
]

const NOT_IN_CORE = [
  'globalThis',
  'console',
  'process',
  'Buffer',
  'window',
  'document',
  'fetch',
  'setTimeout',
  'setInterval',
]

/** Where a language is chosen: the starts of the command line and of each window, and the thread of its figures. */
const CHOOSE_LANGUAGE = [
  'src-main/command/reportCommand.ts',
  'src-main/command/folderCommand.ts',
  'src-main/command/folderWorker.ts',
  'src-main/browser/browser.ts',
  'src-main/desktop/desktop.ts',
  'src-main/desktop/start.ts',
  'src-main/window/calculationWorker.ts',
]

/** Whose values no sentence imports: limits of reference and units alone are printed as they are. */
const BELOW_WORDING = CORE_FLOORS.flat()
  .slice(0, CORE_FLOORS.flat().indexOf('wording'))
  .filter((folder) => !['units', 'reference', 'model'].includes(folder))

/** What of the core a file of the window may import besides types. */
function windowImports(allowed) {
  return {
    patterns: [
      {
        regex: `src-core/(?!${allowed}$)`,
        allowTypeImports: true,
        message:
          'The window computes nothing: have the figure or the text made in src-core/bridge/visitView.ts. Types may be imported.',
      },
    ],
  }
}

/** Node's own modules, with and without their prefix. */
const NODE_MODULES = {
  regex: `^node:|^(${builtinModules.filter((name) => !/[/_]/.test(name)).join('|')})(/|$)`,
  message:
    'The window has no Node: ask the program behind it through a channel of src-core/bridge/contract.ts.',
}
const ELECTRON = {
  regex: '^electron(/|$)',
  message:
    'Only desktop.ts, window.ts and preload.ts import electron: take what is needed from it as an argument.',
}

/** What a room of the main process must not import. */
function mainImports(below) {
  return [
    ELECTRON,
    {
      regex: '^\\./(desktop|window|preload)$|(^|/)desktop/(desktop|window|preload)$',
      message:
        'This file imports electron, and so would its importer: put what both need into a file of its own.',
    },
    {
      regex: '^(react|react-dom)(/|$)|src-renderer(/|$)',
      message: 'The window is another program: answer it through src-core/bridge/contract.ts.',
    },
    {
      regex: `^\\.\\./(?!(${['\\.\\.', ...below].join('|')})/)`,
      message:
        'A room imports only those below it (MAIN_ROOMS in eslint.config.js): move what both need down, or take it as an argument.',
    },
  ]
}

export default tseslint.config(
  { ignores: ['out/', 'node_modules/', 'coverage/'] },
  js.configs.recommended,
  {
    files: ['**/*.{ts,tsx}'],
    extends: [tseslint.configs.recommendedTypeChecked],
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      // Numbers in texts are meant.
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
    },
  },
  {
    files: ['src-*/**/*.{ts,tsx}'],
    plugins: { house: { rules: { 'no-sentence-read': noSentenceRead } } },
    rules: { 'house/no-sentence-read': 'error' },
  },
  {
    // Settings of the tools belong to no program.
    files: ['*.config.{js,ts}'],
    extends: [tseslint.configs.disableTypeChecked],
    languageOptions: { parserOptions: { projectService: false } },
  },
  {
    files: ['src-core/**/*.ts'],
    rules: {
      ...coreImports(''),
      'no-restricted-syntax': ['error', ...NOT_PURE, ...NOT_ANYWHERE_THE_SAME, LATE_IMPORT],
      '@typescript-eslint/triple-slash-reference': ['error', { lib: 'never', path: 'never', types: 'never' }],
      'no-restricted-globals': [
        'error',
        ...NOT_IN_CORE.map((name) => ({
          name,
          message: 'The core is pure: return the value, or take the function as an argument.',
        })),
      ],
    },
  },
  {
    files: ['src-core/**/*.ts', 'src-main/**/*.ts'],
    ignores: ['src-core/wording/english.ts', 'src-core/wording/english/*', ...CHOOSE_LANGUAGE],
    rules: {
      '@typescript-eslint/no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: 'wording/english(/|$)|^\\./english(/|$)',
              allowTypeImports: true,
              message:
                'These are the sentences of one language: take the catalogue as an argument (words: Words, or context.words). Types may be imported.',
            },
          ],
        },
      ],
    },
  },
  {
    // What is told comes as data: no rule stands among the sentences.
    files: ['src-core/wording/english/*.ts'],
    rules: {
      '@typescript-eslint/no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: `^(\\.\\./)+(${BELOW_WORDING.join('|')})/(?!(readings|typedByHand)$)`,
              allowTypeImports: true,
              message:
                'A sentence takes what it names as arguments: have the rule in src-core/told (or below) give the number or the code. Types may be imported, and the accessors of a reading (log/readings).',
            },
          ],
        },
      ],
    },
  },
  ...CORE_FOLDERS.map((folder) => ({ files: [`src-core/${folder}/**/*.ts`], rules: coreImports(folder) })),
  {
    files: ['src-main/**/*.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector:
            'ImportExpression[source.value=/^electron|src-renderer|^.\\u002F(desktop|window|preload)$|desktop\\u002F(desktop|window|preload)$/]',
          message: LATE_IMPORT.message,
        },
        {
          selector:
            'CallExpression[callee.property.name="write"][callee.object.property.name=/^std(out|err)$/], CallExpression[callee.object.name="console"]',
          message:
            'Print through terminal.ts: there the control characters of names and logs are seen as marks.',
        },
      ],
    },
  },
  ...Object.entries(MAIN_ROOMS).map(([room, below]) => ({
    files: [`src-main/${room}/**/*.ts`],
    rules: { 'no-restricted-imports': ['error', { patterns: mainImports(below) }] },
  })),
  {
    // What these print holds no name and no text of a log, or is marked there.
    files: ['src-main/{command/terminal,desktop/start}.ts'],
    rules: { 'no-restricted-syntax': 'off' },
  },
  {
    files: ['src-main/desktop/{desktop,window,preload}.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: '^(react|react-dom|pdfmake)(/|$)|src-renderer(/|$)',
              message: 'The desktop files only connect: the work is done in files that run without Electron.',
            },
          ],
        },
      ],
    },
  },
  {
    files: ['src-renderer/**/*.{ts,tsx}'],
    extends: [reactHooks.configs.flat.recommended, jsxA11y.flatConfigs.strict],
    rules: {
      'no-restricted-syntax': ['error', LATE_IMPORT],
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            NODE_MODULES,
            ELECTRON,
            {
              regex: 'src-main(/|$)|^pdfmake(/|$)',
              message: 'The window is another program: ask through a channel of src-core/bridge/contract.ts.',
            },
          ],
        },
      ],
      '@typescript-eslint/no-restricted-imports': ['error', windowImports('bridge/(channels|wire|limits)')],
    },
  },
  {
    // The start of the window chooses its language.
    files: ['src-renderer/main.tsx'],
    rules: {
      '@typescript-eslint/no-restricted-imports': ['error', windowImports('wording/english/ofWindow')],
    },
  },
)
