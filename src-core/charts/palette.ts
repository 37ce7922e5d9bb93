/** The roles of colour in a picture. Colour only repeats what shape, weight and place already say. */
export interface Palette {
  /** What the picture stands on. */
  readonly paper: string
  /** Readings, lows, letters that matter. */
  readonly ink: string
  /** Letters that help: ticks, counts. */
  readonly grey: string
  /** Thin rules. */
  readonly rule: string
  /** Medians, middle halves, stems. */
  readonly accent: string
}

/** On paper. */
export const PRINT_PALETTE: Palette = {
  paper: '#ffffff',
  ink: '#16202c',
  grey: '#5b6672',
  rule: '#c9ced4',
  accent: '#0f5c6e',
}

/** On a screen: the roles of the window's own style sheet, which knows whether it is light or dark. */
export const SCREEN_PALETTE: Palette = {
  paper: 'var(--paper)',
  ink: 'var(--ink)',
  grey: 'var(--grey)',
  rule: 'var(--rule)',
  accent: 'var(--accent)',
}
