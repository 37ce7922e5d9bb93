/** Sections to which pages refer. */
export const SECTION = {
  doubtful: 'doubtful',
  disagreeing: 'disagreeing',
  compared: 'compared',
  furtherDoubtful: 'further',
  trials: 'trials',
} as const
