// Grown sides: the number that the next ones are grown by.

/** The contract's greatest seed. */
const LAST_SEED = 9999;

/** The seed after this one; after the last comes the first. */
export function otherSeed(seed: number): number {
  return seed >= LAST_SEED ? 0 : seed + 1;
}
