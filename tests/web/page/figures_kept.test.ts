import { Fragment, h } from "preact";
import { beforeAll, describe, expect, it } from "vitest";
import { keepFigures } from "../../../web/src/page/figures_kept";

describe("what the page shows", () => {
  beforeAll(keepFigures);
  const childrenOf = (made: { readonly props: object }): unknown => (made.props as { children?: unknown }).children;

  it("keeps a figure with its unit, at any depth of what an element is given", () => {
    expect(childrenOf(h("p", null, "bars 20 mm deep"))).toBe("bars 20\u00a0mm deep");
    expect(childrenOf(h("p", null, "a", ["20 mm", 4]))).toEqual(["a", ["20\u00a0mm", 4]]);
    expect(childrenOf(h(Fragment, null, "20 mm"))).toBe("20\u00a0mm");
  });

  it("leaves a component what it was given, an option, whose text may be its value, and a narrow cell", () => {
    expect(childrenOf(h("td", null, "20 mm"))).toBe("20 mm");
    expect(childrenOf(h("option", null, "20 mm"))).toBe("20 mm");
    const Part = () => h("p", null);
    expect(childrenOf(h(Part, null, "20 mm"))).toBe("20 mm");
  });
});
