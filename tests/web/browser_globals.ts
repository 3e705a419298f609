// What the page reads of the browser while its modules load, for tests that run without one.
import { vi } from "vitest";

vi.stubGlobal("matchMedia", () => ({
  matches: false,
  addEventListener: () => {},
}));
vi.stubGlobal("navigator", { languages: ["en"] });
vi.stubGlobal("document", { documentElement: { lang: "" } });
vi.stubGlobal("localStorage", { getItem: () => null, setItem: () => {} });
