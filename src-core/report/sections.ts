/** Sections to which pages refer, with their titles. */
export const SECTION = {
  doubtful: 'doubtful',
  disagreeing: 'disagreeing',
  compared: 'compared',
  furtherDoubtful: 'further',
  trials: 'trials',
} as const
export const TRIALS_TITLE = 'Technique trials'
export const DOUBTFUL_TITLE = 'Doubtful readings'
export const FURTHER_DOUBTFUL_TITLE = 'Further doubtful readings'
export const DISAGREEING_TITLE = 'Repeat tests that disagree'
