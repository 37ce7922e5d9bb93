type NumericArray = Float64Array | Uint32Array | Int32Array | Uint16Array | Int16Array | Uint8Array

/** A numeric column that grows as it is written; unwritten places hold 0. */
export interface GrowableColumn {
  get(index: number): number
  set(index: number, value: number): void
}

const FIRST_CAPACITY = 1024

/** Makes an empty column of the given number type. */
export function growableColumn(type: new (length: number) => NumericArray): GrowableColumn {
  let values = new type(FIRST_CAPACITY)
  return {
    get: (index) => (index < values.length ? values[index] : 0),
    set: (index, value) => {
      if (index >= values.length) {
        const larger = new type(Math.max(index + 1, values.length * 2))
        larger.set(values)
        values = larger
      }
      values[index] = value
    },
  }
}
