// The flat canvas's pixels on the drawing of the sheet.
import { effect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { PanelPlace } from "../../contract/types";
import { lookPixels } from "../../stage/look/pixels";
import type { StageTexture } from "../../stage/types";
import { clipped, highlighted } from "../state/colour/clip";
import { drawnView, look } from "../state/colour/look";
import { threshold } from "../state/colour/viewing";
import type { PlacedPanel, Placing } from "./placing";
import { say } from "../../speech/on_page";

interface FlatTextureProps {
  readonly texture: StageTexture;
  readonly placed: readonly PlacedPanel[];
  /** Whose rows of the texture are whose. */
  readonly panels: readonly PanelPlace[];
}

export function FlatTexture({ texture, placed, panels }: FlatTextureProps) {
  const canvases = useRef(new Map<number, HTMLCanvasElement>());
  const { widthPx, heightPx } = texture;
  const seen = placed.map(({ panel }) => panel).join(" ");
  useEffect(() => {
    // At most once for each frame, however fast the pointer moves.
    let frame = 0;
    const end = effect(() => {
      const pixels = flatPixels(texture);
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(() => {
        const image = new ImageData(pixels(), widthPx, heightPx);
        for (const { number, top_px, bottom_px } of panels) {
          const context = canvases.current.get(number)?.getContext("2d");
          context?.putImageData(image, 0, -top_px, 0, top_px, widthPx, bottom_px - top_px);
        }
      });
    });
    return () => {
      end();
      cancelAnimationFrame(frame);
    };
  }, [texture, widthPx, heightPx, panels, seen]);
  return (
    <>
      {placed.map(({ panel, placing }) => {
        const rows = panels.find(({ number }) => number === panel);
        if (rows === undefined) return null;
        return (
          <canvas
            key={panel}
            ref={(element) => {
              if (element === null) canvases.current.delete(panel);
              else canvases.current.set(panel, element);
            }}
            class="flat-texture"
            width={widthPx}
            height={rows.bottom_px - rows.top_px}
            role="img"
            aria-label={say("The flat canvas as it is printed{words}", {
              words:
                panels.length > 1 ? say(", panel {panel} of {panelCount}", { panel, panelCount: panels.length }) : "",
            })}
            style={laid(placing)}
          />
        );
      })}
    </>
  );
}

/** The unturned canvas about the same middle; a quarter clockwise lays it as it is placed. */
function laid({ canvas: on, turned }: Placing) {
  const [width, height] = turned ? [on.height, on.width] : [on.width, on.height];
  return {
    left: `${on.x + (on.width - width) / 2}px`,
    top: `${on.y + (on.height - height) / 2}px`,
    width: `${width}px`,
    height: `${height}px`,
    transform: turned ? "rotate(90deg)" : "none",
  };
}

type Pixels = Uint8ClampedArray<ArrayBuffer>;

/** Read the signals of the view at once; the function that is returned computes the pixels. */
function flatPixels(texture: StageTexture): () => Pixels {
  const [tables, view, group] = [look.value, drawnView.value, highlighted.value?.number ?? 0];
  const from = view === "clip" ? threshold.value : 0;
  const labels = group === 0 ? undefined : clipped.value?.labels;
  return () => {
    const plain = view === "filed" && tables?.filed === undefined && group === 0;
    if (tables === undefined || plain) return new Uint8ClampedArray(texture.pixels);
    return lookPixels(texture, tables, view, from, labels, group);
  };
}
