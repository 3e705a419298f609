// The methods of the core with their parameters and replies, from the generated contract.
import type { Contract, Method } from "./types";

/** Every call that the core answers: parameters and reply, by method. */
export type Calls = { [M in Method]: { params: Contract[M][0]; reply: Contract[M][1] } };

/** The parameters of a method. */
export type Params<M extends Method> = Calls[M]["params"];

/** The reply of a method. */
export type Reply<M extends Method> = Calls[M]["reply"];
