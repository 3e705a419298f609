import { describe, expect, it } from "vitest";
import { LookOnGpu } from "../../../web/src/stage/look_uniforms";
import { smallLook } from "./small_look";

const texture = { pixels: new Uint8Array(800), widthPx: 20, heightPx: 10 };

describe("LookOnGpu", () => {
  it("shows the texture as it is until there is a look", () => {
    const look = new LookOnGpu();
    look.setView("printed");
    expect(look.uniforms.lookMode.value).toBe(0);
    look.setLook(smallLook());
    expect(look.uniforms.lookMode.value).toBe(1);
    expect(look.uniforms.lookTable.value).not.toBeNull();
  });

  it("changes views by pointing at another table", () => {
    const look = new LookOnGpu();
    look.setLook({ ...smallLook(), filed: smallLook().printed });
    const { lookMode, lookTable } = look.uniforms;
    const filed = lookTable.value;
    look.setView("printed");
    const printed = lookTable.value;
    expect([lookMode.value, printed === filed]).toEqual([1, false]);
    look.setView("clip");
    expect([lookMode.value, lookTable.value === printed]).toEqual([2, true]);
    look.setView("filed");
    expect([lookMode.value, lookTable.value === filed]).toEqual([1, true]);
  });

  it("needs no table for a file that is what the screen wants", () => {
    const look = new LookOnGpu();
    look.setLook(smallLook());
    expect(look.uniforms.lookMode.value).toBe(0);
  });

  it("keeps the inked box as shares of the texture", () => {
    const look = new LookOnGpu();
    look.setInked({ ...texture, inked: { left: 2, top: 1, right: 18, bottom: 8 } });
    expect(look.uniforms.inked.value.toArray()).toEqual([0.1, 0.1, 0.9, 0.8]);
    look.setInked(texture);
    expect(look.uniforms.inked.value.toArray()).toEqual([0, 0, 1, 1]);
  });

  it("lights up only a group that has a place", () => {
    const look = new LookOnGpu();
    look.highlight(2);
    expect(look.uniforms.lit.value).toBe(false);
    look.setLabels({ labels: new Uint8Array([0, 2, 2, 1]), widthPx: 2, heightPx: 2 });
    expect(look.uniforms.lit.value).toBe(true);
    expect(look.uniforms.groupMask.value?.image).toMatchObject({ data: new Uint8Array([0, 255, 255, 0]) });
    look.highlight(0);
    expect([look.uniforms.lit.value, look.uniforms.groupMask.value]).toEqual([false, null]);
  });
});
