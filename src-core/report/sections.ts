/** Sections to which pages refer. */
export const SECTION = {
  doubtful: 'doubtful',
  disagreeing: 'disagreeing',
  compared: 'compared',
  trials: 'trials',
} as const
