/** Lows listed one by one; beyond them the list would be a book. */
export const MOST_LOWS_LISTED = 120
