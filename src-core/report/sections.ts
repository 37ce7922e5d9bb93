/** Sections to which pages refer, with their titles. */
export const SECTION = { doubtful: 'doubtful', disagreeing: 'disagreeing' } as const
export const DOUBTFUL_TITLE = 'Doubtful readings'
export const DISAGREEING_TITLE = 'Repeat tests that disagree'
