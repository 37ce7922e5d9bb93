/** Paper sizes by the names that the options use. Points. */
export const PAPERS = {
  A4: { width: 595.28, height: 841.89 },
  Letter: { width: 612, height: 792 },
} as const
export type Paper = keyof typeof PAPERS

/** Days that the diary shows where nobody chose otherwise (design choice: four weeks fill a page). */
export const USUAL_DIARY_DAYS = 28
