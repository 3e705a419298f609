import { describe, expect, it } from "vitest";
import { LookTables } from "../../../../web/src/stage/look/tables_on_gpu";
import { LookOnGpu } from "../../../../web/src/stage/look/look_on_gpu";
import { smallLook } from "../small_look";

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

  it("takes the tables of a look that others have too from their store", () => {
    const tables = new LookTables();
    const [one, other] = [new LookOnGpu(tables), new LookOnGpu(tables)];
    const shared = smallLook();
    for (const look of [one, other]) {
      look.setView("printed");
      look.setLook(shared);
    }
    expect(one.uniforms.lookTable.value).toBe(other.uniforms.lookTable.value);
    other.setLook(smallLook());
    expect(one.uniforms.lookTable.value).not.toBe(other.uniforms.lookTable.value);
    other.setLook(undefined);
    expect([other.uniforms.lookMode.value, other.uniforms.lookTable.value]).toEqual([0, null]);
  });

  it("lights up only a group that has a place", () => {
    const look = new LookOnGpu();
    look.highlight(2);
    expect(look.uniforms.lit.value).toBe(false);
    look.setLabels({
      labels: new Uint8Array([0, 2, 2, 1]),
      widthPx: 2,
      heightPx: 2,
    });
    expect(look.uniforms.lit.value).toBe(true);
    expect(look.uniforms.hueMask.value?.image).toMatchObject({
      data: new Uint8Array([0, 255, 255, 0]),
    });
    look.highlight(0);
    expect([look.uniforms.lit.value, look.uniforms.hueMask.value]).toEqual([false, null]);
  });
});
