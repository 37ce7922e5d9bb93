/** Sections to which pages refer, with their titles. */
export const SECTION = { doubtful: 'doubtful', disagreeing: 'disagreeing', compared: 'compared' } as const
export const DOUBTFUL_TITLE = 'Doubtful readings'
export const DISAGREEING_TITLE = 'Repeat tests that disagree'
