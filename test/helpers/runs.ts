const LONG = process.env.MODE === 'mutations'

/** How many times a property is tried: `often` in every run of the suite, forty times as often by `npm run test:mutations`. */
export const runs = (often: number): number => (LONG ? 40 * often : often)
