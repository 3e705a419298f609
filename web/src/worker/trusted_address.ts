// Addresses of programs, for browsers with Trusted Types: there a worker takes none that is plain text.

interface ScriptAddressPolicy {
  /** An object in place of the text, which browsers take wherever the address of a program is wanted. */
  createScriptURL(address: string): string;
}

interface TrustedTypes {
  createPolicy(name: string, rules: { createScriptURL(address: string): string }): ScriptAddressPolicy;
}

declare global {
  // eslint-disable-next-line no-var
  var trustedTypes: TrustedTypes | undefined;
}

/** The policy's name, which the page's content security policy allows. */
const NAME = "tuckfold";

let policy: ScriptAddressPolicy | undefined;

/** The address of a program of this site; throws for any other. */
export function trustedAddress(address: URL): string {
  if (address.origin !== location.origin) throw new TypeError(`${address.href} is no program of this page`);
  policy ??= globalThis.trustedTypes?.createPolicy(NAME, { createScriptURL: (own) => own });
  return policy?.createScriptURL(address.href) ?? address.href;
}
