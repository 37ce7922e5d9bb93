/** A group of people for whom the consensus gives targets of its own. */
export type TargetPreset = 'pregnancy' | 'older-adult'
