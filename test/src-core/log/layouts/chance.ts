/** Seeded chance: the same seed gives the same choices everywhere. */
export class Chance {
  private state: number

  constructor(seed: number) {
    this.state = Math.imul(seed + 1, 0x9e3779b1) >>> 0
  }

  /** A number from 0 to below 1 (the 'mulberry' mixing of a 32-bit counter). */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(this.state ^ (this.state >>> 15), this.state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }

  odds(probability: number): boolean {
    return this.next() < probability
  }

  /** A whole number, both ends included. */
  between(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1))
  }

  pick<T>(list: readonly T[]): T {
    return list[Math.floor(this.next() * list.length)]
  }

  /** One of the alternatives of a text parted by '|'. */
  word(text: string): string {
    return this.pick(text.split('|'))
  }

  /** An entry, each with its weight. */
  weighed<T>(list: readonly (readonly [T, number])[]): T {
    let left = this.next() * list.reduce((sum, [, weight]) => sum + weight, 0)
    for (const [entry, weight] of list) if ((left -= weight) < 0) return entry
    return list[list.length - 1][0]
  }

  shuffled<T>(list: readonly T[]): T[] {
    const mixed = [...list]
    for (let i = mixed.length - 1; i > 0; i--) {
      const j = this.between(0, i)
      ;[mixed[i], mixed[j]] = [mixed[j], mixed[i]]
    }
    return mixed
  }

  some<T>(list: readonly T[], count: number): T[] {
    return this.shuffled(list).slice(0, count)
  }

  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next())
  }
}
