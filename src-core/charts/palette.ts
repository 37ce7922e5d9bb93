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

/** On paper and on a light screen. */
export const PRINT_PALETTE: Palette = {
  paper: '#ffffff',
  ink: '#16202c',
  grey: '#5b6672',
  rule: '#c9ced4',
  accent: '#0f5c6e',
}

/** On a dark screen: the same roles turned; ink, grey and accent keep 4.5 to 1 against #12181f. */
export const DARK_PALETTE: Palette = {
  paper: '#12181f',
  ink: '#e8ecf0',
  grey: '#a3adb8',
  rule: '#3a444f',
  accent: '#6cc0d3',
}
