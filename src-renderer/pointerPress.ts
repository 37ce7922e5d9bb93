// A press of the pointer takes the focus from a field before it becomes a click. If what the field held were taken in
// then, what moves on the screen by it could slip away from under the pointer, and the click would be lost.

let isPressed = false
const waiting = new Set<() => void>()

function released(): void {
  isPressed = false
  for (const does of waiting) {
    waiting.delete(does)
    does()
  }
}

/** Follows the pointer from now on. */
export function watchPresses(): void {
  window.addEventListener('pointerdown', () => (isPressed = true), true)
  // Before the click does what it is for: what was written comes first.
  window.addEventListener('click', released, true)
  // Where no click follows, such as after a selection that ends outside.
  window.addEventListener('pointerup', () => setTimeout(released), true)
  window.addEventListener('pointercancel', released, true)
}

/** Does it once the pointer is not pressed: at once, or just before the click. */
export function onceReleased(does: () => void): void {
  if (isPressed) waiting.add(does)
  else does()
}
