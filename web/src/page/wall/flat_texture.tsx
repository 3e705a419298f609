// The flat canvas's pixels on the drawing of the sheet.
import { effect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { StageTexture } from "../../stage/types";
import { flatPixels } from "./flat_pixels";
import type { Placing } from "./placing";

interface FlatTextureProps {
  readonly texture: StageTexture;
  readonly placing: Placing;
}

export function FlatTexture({ texture, placing }: FlatTextureProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { widthPx, heightPx } = texture;
  useEffect(() => {
    // At most once for each frame, however fast the hand moves.
    let frame = 0;
    const end = effect(() => {
      const pixels = flatPixels(texture);
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(() => {
        canvas.current?.getContext("2d")?.putImageData(new ImageData(pixels(), widthPx, heightPx), 0, 0);
      });
    });
    return () => {
      end();
      cancelAnimationFrame(frame);
    };
  }, [texture]);
  const { canvas: on, turned } = placing;
  // The unturned canvas about the same middle; a quarter clockwise lays it as it is placed.
  const [width, height] = turned ? [on.height, on.width] : [on.width, on.height];
  return (
    <canvas
      ref={canvas}
      class="flat-texture"
      width={widthPx}
      height={heightPx}
      role="img"
      aria-label="The flat canvas as it is printed"
      style={{
        left: `${on.x + (on.width - width) / 2}px`,
        top: `${on.y + (on.height - height) / 2}px`,
        width: `${width}px`,
        height: `${height}px`,
        transform: turned ? "rotate(90deg)" : "none",
      }}
    />
  );
}
