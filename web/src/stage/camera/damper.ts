/** Smooth approach to a goal: the critically damped spring, solved exactly, so that no frame rate changes the path. */

export interface Damped {
  readonly value: number;
  /** Per second. */
  readonly speed: number;
}

/**
 * The spring after `dtS` seconds.
 *
 * With x measured from the goal, x'' + 2 w x' + w^2 x = 0 has the solution x = (x0 + (v0 + w x0) t) exp(-w t);
 * w = 1 / `timeS` is the only constant. It never swings past the goal when it starts at rest.
 */
export function damp(state: Damped, goal: number, timeS: number, dtS: number): Damped {
  const rate = 1 / timeS;
  const offset = state.value - goal;
  const drift = state.speed + rate * offset;
  const decay = Math.exp(-rate * dtS);
  const now = (offset + drift * dtS) * decay;
  return { value: goal + now, speed: drift * decay - rate * now };
}

/** Whether the spring is so near its goal, and so slow, that nobody could see it move. */
export function atRest(state: Damped, goal: number, tolerance: number): boolean {
  return Math.abs(state.value - goal) <= tolerance && Math.abs(state.speed) <= tolerance;
}
