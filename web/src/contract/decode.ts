// Turning JSON text from the core into typed messages: the one place where unknown data gets a type.
// The check walks the same schema that the types are generated from, so a type can be trusted once it passed.
import contract from "./contract.schema.json";
import type { Reply } from "./calls";
import { isRecord } from "./record";
import type { ErrorReply, Method, Progress } from "./types";

/** The part of JSON Schema that pycore/bridge/schema.py uses. */
interface Schema {
  $ref?: string;
  $defs?: Record<string, Schema>;
  allOf?: Schema[];
  anyOf?: Schema[];
  type?: string;
  enum?: unknown[];
  const?: unknown;
  properties?: Record<string, Schema>;
  required?: string[];
  items?: Schema | Schema[];
  /** The schema of the values, where the names are free. */
  additionalProperties?: boolean | Schema;
}

const root: Schema = contract;

/** The core's message breaks the contract; a fault of the program, not of its user. */
export class ContractError extends Error {
  override name = "ContractError";
}

/** The reply of a method from its JSON text; throws a ContractError that names the first wrong field. */
export function decodeReply<M extends Method>(method: M, text: string): Reply<M> {
  const value = parse(text);
  if (isReply(method, value)) return value;
  throw new ContractError(`reply to ${method}: ${mismatch(replySchema(method), value, "reply")}`);
}

/** A progress message from its JSON text. */
export function decodeProgress(text: string): Progress {
  const value = parse(text);
  if (isProgress(value)) return value;
  throw new ContractError(`progress: ${mismatch(definition("Progress"), value, "progress")}`);
}

/** An error message from its JSON text. */
export function decodeError(text: string): ErrorReply {
  const value = parse(text);
  if (isErrorReply(value)) return value;
  throw new ContractError(`error: ${mismatch(definition("ErrorReply"), value, "error")}`);
}

function isReply<M extends Method>(method: M, value: unknown): value is Reply<M> {
  return mismatch(replySchema(method), value, "reply") === undefined;
}

function isProgress(value: unknown): value is Progress {
  return mismatch(definition("Progress"), value, "progress") === undefined;
}

function isErrorReply(value: unknown): value is ErrorReply {
  return mismatch(definition("ErrorReply"), value, "error") === undefined;
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (wrong) {
    throw new ContractError(`not JSON: ${String(wrong)}`);
  }
}

function replySchema(method: Method): Schema {
  const items = root.properties?.[method]?.items;
  const reply = Array.isArray(items) ? items[1] : undefined;
  if (reply === undefined) throw new ContractError(`no method ${method}`);
  return reply;
}

function definition(name: string): Schema {
  const found = root.$defs?.[name];
  if (found === undefined) throw new ContractError(`no message ${name}`);
  return found;
}

/** The first mismatch of a value with its schema, or undefined where it conforms. */
function mismatch(schema: Schema, value: unknown, at: string): string | undefined {
  if (schema.$ref !== undefined) return mismatch(definition(schema.$ref.slice("#/$defs/".length)), value, at);
  for (const part of schema.allOf ?? []) {
    const wrong = mismatch(part, value, at);
    if (wrong !== undefined) return wrong;
  }
  if (schema.anyOf?.every((part) => mismatch(part, value, at) !== undefined) === true)
    return `${at} is of no type it may be`;
  if (schema.enum !== undefined && !schema.enum.includes(value)) return `${at} is none of ${schema.enum.join(", ")}`;
  if (schema.const !== undefined && schema.const !== value) return `${at} is not ${JSON.stringify(schema.const)}`;
  if (schema.type !== undefined && !isOfType(schema.type, value)) return `${at} is not of type ${schema.type}`;
  if (Array.isArray(value)) return mismatchInList(schema, value, at);
  return isRecord(value) ? mismatchInObject(schema, value, at) : undefined;
}

function mismatchInList(schema: Schema, value: unknown[], at: string): string | undefined {
  const { items } = schema;
  if (Array.isArray(items) && value.length !== items.length) return `${at} has not ${items.length} items`;
  for (const [index, item] of value.entries()) {
    const own = Array.isArray(items) ? items[index] : items;
    const wrong = own && mismatch(own, item, `${at}.${index}`);
    if (wrong !== undefined) return wrong;
  }
  return undefined;
}

function mismatchInObject(schema: Schema, value: Record<string, unknown>, at: string): string | undefined {
  for (const name of schema.required ?? []) {
    if (!Object.hasOwn(value, name)) return `${at}.${name} is missing`;
  }
  for (const [name, item] of Object.entries(value)) {
    const others = schema.additionalProperties;
    const own = schema.properties?.[name] ?? (typeof others === "object" ? others : undefined);
    if (own === undefined && others === false) return `${at}.${name} is unknown`;
    const wrong = own && mismatch(own, item, `${at}.${name}`);
    if (wrong !== undefined) return wrong;
  }
  return undefined;
}

function isOfType(type: string, value: unknown): boolean {
  switch (type) {
    case "integer":
      return Number.isInteger(value);
    case "array":
      return Array.isArray(value);
    case "object":
      return isRecord(value);
    default:
      return typeof value === type;
  }
}
