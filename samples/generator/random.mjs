/**
 * A repeatable source of chance: Park and Miller's 'minimal standard' generator (Commun ACM 1988;31:1192),
 * with the multiplier they recommended later (1993;36(7):105). `seed` is a whole number, 1 to 2147483646.
 */
export function randomSource(seed) {
  const modulus = 2_147_483_647
  let state = seed
  const uniform = () => {
    state = (state * 48_271) % modulus
    return state / modulus
  }
  const between = (least, most) => least + (most - least) * uniform()
  return {
    between,
    whole: (least, most) => Math.floor(between(least, most + 1)),
    chance: (probability) => uniform() < probability,
    pick: (list) => list[Math.floor(uniform() * list.length)],
    /** Normally distributed (Box and Muller, Ann Math Stat 1958;29:610). */
    normal: (mean, sd) => mean + sd * Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform()),
  }
}
