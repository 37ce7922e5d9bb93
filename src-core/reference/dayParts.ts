export const HOURS_PER_DAY = 24

/** The day is summed up in eight blocks of three hours, from midnight. */
export const BLOCK_HOURS = 3
export const BLOCKS_PER_DAY = HOURS_PER_DAY / BLOCK_HOURS

/** A block with fewer readings has no part in the balanced mean. */
export const BALANCED_MIN_READINGS = 5

/** A night runs from 00:00 to before this hour. */
export const NIGHT_ENDS_AT_HOUR = 6

/** Lows further apart than this are two episodes, minutes. */
export const LOW_EPISODE_GAP_MINUTES = 60

/** A reading later than this after a low says nothing of how the low went, minutes. A design choice. */
export const RECOVERY_SEEN_WITHIN_MINUTES = 240
