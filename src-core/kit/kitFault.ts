/** How a value of the kit can be wrong beyond its kind and its limits. */
export const KIT_FAULTS = [
  'date',
  'moment',
  'noSuchDay',
  'year',
  'upsideDown',
  'notOfUnit',
  'oneA1c',
] as const
export type KitFault = (typeof KIT_FAULTS)[number]

/** The fault that an issue of the kit's shapes gives as its message; null where it says anything else. */
export function kitFaultOf(said: string): KitFault | null {
  return KIT_FAULTS.find((code) => code === said) ?? null
}
